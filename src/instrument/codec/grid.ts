/** The frequencies of a sweep as the wire states them. */
export interface Grid {
  readonly startHz: number;
  readonly stopHz: number;
  readonly points: number;
}

/**
 * Frequency of one point of a sweep: the equally spaced value, rounded to the nearest hertz, halves up.
 * With m = points − 1, the span is split into quotient and remainder by m, so that no product
 * passes 32 bits in firmware: start + i·q + ⌊(i·r + ⌊m/2⌋) / m⌋.
 *
 * @param grid - 2 to 65,535 points, stop − start at least points − 1
 * @param number - 0 to points − 1
 * @returns Hz, an integer; exactly start and stop at the ends
 */
export function gridFrequencyHz(grid: Grid, number: number): number {
  const steps = grid.points - 1;
  const spanHz = grid.stopHz - grid.startHz;
  const quotientHz = Math.floor(spanHz / steps);
  const remainder = spanHz % steps;
  return grid.startHz + number * quotientHz + Math.floor((number * remainder + (steps >> 1)) / steps);
}

/** All frequencies of a sweep in Hz, strictly rising. */
export function gridFrequenciesHz(grid: Grid): Float64Array {
  return Float64Array.from({ length: grid.points }, (_, number) => gridFrequencyHz(grid, number));
}
