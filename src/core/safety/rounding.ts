import { lengthUnit, type UnitSystem } from '../quantity.ts';

// Rounding to the careful side: the one place where figures of exposure are rounded, up what people must keep, down
// what they have and what a transmitter may give. What was rounded and is shown in another unit is rounded to the
// same side again.

/** Distances are told on a grid of a tenth of a metre, or of a foot, or of an inch where they are short. */
export const DISTANCE_STEPS_PER_M = 10;

/** Forgives the last digits of binary arithmetic, so that 0.3·10 counts as 3. */
const SLACK = 1e-9;

/** Up to the next whole `1/perUnit`: what people must keep, or a mean power they meet. */
export function roundUp(value: number, perUnit: number): number {
  return Math.ceil(value * perUnit * (1 - SLACK)) / perUnit;
}

/** Down to the whole `1/perUnit` before: what people have. */
export function roundDown(value: number, perUnit: number): number {
  return Math.floor(value * perUnit * (1 + SLACK)) / perUnit;
}

/** Down to this many significant digits: what a transmitter may give. */
export function roundDownSignificant(value: number, digits: number): number {
  if (!(value > 0) || !Number.isFinite(value)) return value;
  const exponent = digits - 1 - Math.floor(Math.log10(value));
  return exponent >= 0
    ? roundDown(value, 10 ** exponent)
    : Math.floor(value / 10 ** -exponent) * 10 ** -exponent;
}

/**
 * A distance to keep as a whole tenth (or other decimal) of the unit that is shown, in metres again, so that printing
 * cannot shorten it.
 */
export function keptLengthM(lengthM: number, units: UnitSystem, decimals = 1): number {
  const { unitM, digits } = lengthUnit(lengthM, units, decimals);
  return roundUp(lengthM / unitM, 10 ** digits) * unitM;
}

/** A distance that is there, likewise, so that printing cannot lengthen it. */
export function presentLengthM(lengthM: number, units: UnitSystem): number {
  const { unitM, digits } = lengthUnit(lengthM, units);
  return roundDown(lengthM / unitM, 10 ** digits) * unitM;
}

/** Whether a distance that is there, so rounded, reads as no more than one to keep. */
export function readsAsWithin(presentM: number, keptM: number, units: UnitSystem): boolean {
  return presentLengthM(presentM, units) <= keptLengthM(keptM, units) * (1 + SLACK);
}
