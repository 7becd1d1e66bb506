import { lengthUnit, type UnitSystem } from '../core/quantity.ts';
import { keptLengthM, presentLengthM, readsAsWithin, roundUp } from '../core/safety/rounding.ts';

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

/** How a reader is shown plain figures, in the same units. */
interface Shown {
  length(lengthM: number, decimals: number): string;
  watts(powerW: number): string;
}

/** Figures of exposure, rounded to the careful side before they are shown. */
export function carefulFigures(units: UnitSystem, { length, watts }: Shown): CarefulFigures {
  return {
    kept: (lengthM) => length(keptLengthM(lengthM, units), 1),
    present: (lengthM) => length(presentLengthM(lengthM, units), 1),
    fine: (lengthM) => length(keptLengthM(lengthM, units, 2), 2),
    readsAsWithin: (presentM, keptM) => readsAsWithin(presentM, keptM, units),
    allowed: (powerW) => allowedPowerWords(powerW, watts),
  };
}

/** Distances to keep that stand side by side in one row: all in the unit of the longest; “-” for one that is not had. */
export function keptAlike(lengthsM: readonly (number | null)[], units: UnitSystem): string[] {
  const longestM = Math.max(...lengthsM.map((lengthM) => lengthM ?? 0));
  const { name, unitM, digits } = lengthUnit(longestM, units);
  return lengthsM.map((lengthM) =>
    lengthM === null ? '-' : `${roundUp(lengthM / unitM, 10 ** digits).toFixed(digits)} ${name}`,
  );
}
