import type { Quantity } from '../quantity-with-uncertainty.ts';

/** The part of a figure that its uncertainty may reach; beyond it the figure might as well be anything. */
const MOST: Readonly<Record<string, number>> = { resonanceHz: 0.1 };
const MOST_OF_OTHERS = 1;

/**
 * True where the uncertainty of a figure, or of a difference of two, is as large as the figures themselves, which are all
 * above zero: what then stands before the ± is told by nothing.
 *
 * @param figures - the figure itself, or those on both sides of the difference
 */
export function isToldNothing(
  measure: string,
  { value, expandedUncertainty }: Quantity,
  figures: readonly Quantity[],
): boolean {
  if (value === null || expandedUncertainty === null) return false;
  const largest = Math.max(...figures.map((figure) => Math.abs(figure.value ?? 0)));
  return expandedUncertainty >= (MOST[measure] ?? MOST_OF_OTHERS) * largest;
}

/** Uncertainty of a gain in dB at which the resistance behind it is uncertain by as much as itself: 10/ln 10. */
const MOST_DB = 10 / Math.LN10;

/** The same of a gain in dB. */
export function isGainToldNothing({ expandedUncertainty }: Quantity): boolean {
  return expandedUncertainty !== null && expandedUncertainty >= MOST_DB;
}
