import { type BandComparison, measureOf } from './compare-visits.ts';
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
  const { value: changeOhm, expandedUncertainty } = resistance.difference;
  const beforeOhm = resistance.before.value;
  const afterOhm = beforeOhm === null || changeOhm === null ? null : beforeOhm + changeOhm;
  const gainDb = resistance.direction.sign === 0 ? null : resistanceGain(beforeOhm, afterOhm);
  const ofResistance = {
    resistanceVerdict: resistance.verdict,
    resistanceGainDb: gainDb,
    resistanceGainUncertaintyDb:
      gainDb === null || afterOhm === null || expandedUncertainty === null
        ? null
        : (DB_PER_NEPER * expandedUncertainty) / afterOhm,
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

/** A small relative change of a resistance, in dB of power. */
const DB_PER_NEPER = 10 / Math.LN10;

/** 10·log10 of the ratio of resistances, dB; null where there is none. */
export function resistanceGain(beforeOhm: number | null, afterOhm: number | null): number | null {
  if (beforeOhm === null || afterOhm === null || !(beforeOhm > 0) || !(afterOhm > 0)) return null;
  return 10 * Math.log10(beforeOhm / afterOhm);
}
