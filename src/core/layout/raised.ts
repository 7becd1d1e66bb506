/** From this height of the base on, radials hang in the air and are tuned, m. */
export const RAISED_M = 0.5;
