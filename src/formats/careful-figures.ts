/** More than any amateur transmitter gives: a larger allowed power is told as this one. */
const MOST_TOLD_W = 10_000;

/** A power that a transmitter may give, in words; `shown` puts a figure in watts. */
export function allowedPowerWords(powerW: number, shown: (powerW: number) => string): string {
  if (powerW < 1) return 'none';
  return powerW > MOST_TOLD_W ? `over ${shown(MOST_TOLD_W)} W` : `${shown(powerW)} W`;
}

/** How figures are shown: in the reader's unit, each rounded to the careful side by `core/safety/rounding.ts`. */
export interface CarefulFigures {
  /** A distance to keep. */
  kept(lengthM: number): string;
  /** A distance that is there. */
  present(lengthM: number): string;
  /** A distance to keep with a digit more. */
  fine(lengthM: number): string;
  /** Whether a distance that is there would read as no more than one to keep. */
  readsAsWithin(presentM: number, keptM: number): boolean;
  /** A power that a transmitter may give. */
  allowed(powerW: number): string;
}
