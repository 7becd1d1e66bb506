import { type Quantity, UNKNOWN_QUANTITY } from '../quantity-with-uncertainty.ts';
import { type BandComparison, measureOf } from './compare-visits.ts';
import type { FigureDifference } from './pair.ts';
import type { StrengthComparison } from './strength.ts';
import type { Verdict } from './verdict.ts';

/** The one verdict on a change, and what it rests on. */
export interface OverallVerdict {
  readonly verdict: Verdict;
  readonly basis: 'received strength' | 'resistance';
  /** What the resistance says by itself. */
  readonly resistanceVerdict: Verdict;
  /** Whether strength and resistance say the same; null where only one of them says anything. */
  readonly agree: boolean | null;
  /**
   * Gain from the ratio of the resistances at X = 0, the soil taken as it was before, dB: a lower estimate of the gain
   * in the field.
   */
  readonly resistanceGainDb: number | null;
  readonly resistanceGainUncertaintyDb: number | null;
}

/**
 * Received strength outranks resistance: it is what the antenna is for, and resistance is known to understate it.
 *
 * Source: T. Rauch, public mailing-list report, December 2006: at 7 MHz the field rose by about 1 dB a step more than
 * the resistance told.
 */
export function overallVerdict(
  comparison: BandComparison,
  strength: StrengthComparison | null,
): OverallVerdict {
  const resistance = measureOf(comparison, 'resistanceAtResonanceOhm');
  const gain = resistance.direction.sign === 0 ? UNKNOWN_QUANTITY : gainQuantity(resistance);
  const ofResistance = {
    resistanceVerdict: resistance.verdict,
    resistanceGainDb: gain.value,
    resistanceGainUncertaintyDb: gain.expandedUncertainty,
  };
  if (strength === null || strength.intervalDb === null) {
    return { verdict: resistance.verdict, basis: 'resistance', agree: null, ...ofResistance };
  }
  const told = resistance.verdict !== 'not shown' && strength.verdict !== 'not shown';
  return {
    verdict: strength.verdict,
    basis: 'received strength',
    agree: told ? strength.verdict === resistance.verdict : null,
    ...ofResistance,
  };
}

/**
 * Gain that a difference of R at X = 0 tells, the soil taken as it was before, dB: 10·log10 of the ratio, with the
 * uncertainty of the difference.
 */
export function gainQuantity(found: Pick<FigureDifference, 'before' | 'difference'> | null): Quantity {
  const beforeOhm = found?.before.value ?? null;
  if (found === null || beforeOhm === null || found.difference.value === null) return UNKNOWN_QUANTITY;
  const { value, expandedUncertainty, coverageFactor } = found.difference;
  const afterOhm = beforeOhm + value;
  const gainDb = resistanceGain(beforeOhm, afterOhm);
  if (gainDb === null) return UNKNOWN_QUANTITY;
  return {
    value: gainDb,
    expandedUncertainty:
      expandedUncertainty === null ? null : ((10 / Math.LN10) * expandedUncertainty) / afterOhm,
    coverageFactor,
  };
}

/** 10·log10 of the ratio of resistances, dB; null where there is none. */
export function resistanceGain(beforeOhm: number | null, afterOhm: number | null): number | null {
  if (beforeOhm === null || afterOhm === null || !(beforeOhm > 0) || !(afterOhm > 0)) return null;
  return 10 * Math.log10(beforeOhm / afterOhm);
}
