import { type FeedPointSetting, predictedFeedPoint } from '../layout/predicted-feed-point.ts';
import type { Quantity } from '../quantity-with-uncertainty.ts';
import type { Radial } from '../record.ts';
import { UserError } from '../user-error.ts';
import { placeOf, textTo } from './rounding.ts';

/** What R at X = 0 a field was planned to give, beside what was measured over it. */
export interface PlannedResistance {
  readonly valueOhm: number;
  /** From the best to the worst that soil and method leave open. */
  readonly lowOhm: number;
  readonly highOhm: number;
  /** How far the measured R, with all of its uncertainty, lies above (or, negative, below) that range; 0 within it. */
  readonly beyondOhm: number;
}

/**
 * Holds a measured R at X = 0 against the one that the laid radials were planned to give.
 *
 * @param setting - null where the site does not tell antenna and soil
 * @param radials - what lies there
 * @returns null where none of the radials was planned, nothing was measured, or the method does not reach
 */
export function plannedResistance(
  setting: FeedPointSetting | null,
  radials: readonly Radial[],
  { value, expandedUncertainty }: Quantity,
): PlannedResistance | null {
  if (setting === null || value === null || radials.every(({ route }) => route === null)) return null;
  const predicted = predictionOrNull(setting, radials);
  if (predicted === null) return null;
  const { resistanceOhm: valueOhm, lowOhm, highOhm } = predicted;
  const u = expandedUncertainty ?? 0;
  const beyondOhm = value - u > highOhm ? value - u - highOhm : Math.min(0, value + u - lowOhm);
  return { valueOhm, lowOhm, highOhm, beyondOhm };
}

/** Fields that the physics refuses have no prediction; the fit of the same physics says why. */
function predictionOrNull(
  setting: FeedPointSetting,
  radials: readonly Radial[],
): ReturnType<typeof predictedFeedPoint> {
  try {
    return predictedFeedPoint(setting, radials);
  } catch (error) {
    if (error instanceof UserError) return null;
    throw error;
  }
}

/** In one sentence, whether what was measured agrees with what was planned; empty where nothing was planned. */
export function plannedWords(steps: readonly (PlannedResistance | null)[]): string {
  const told = steps.flatMap((planned, i) => (planned === null ? [] : [{ planned, state: i + 1 }]));
  if (told.length === 0) return '';
  const off = told.filter(({ planned }) => planned.beyondOhm !== 0);
  if (off.length === 0) {
    const where = told.length === 1 ? `at state ${told[0]?.state}` : `at all ${told.length} states`;
    return `Planned and measured agree: ${where} R lies within what soil and method leave open.`;
  }
  const beyond = off.map(({ planned: { beyondOhm }, state }) => {
    const size = Math.abs(beyondOhm);
    return `${textTo(placeOf(size, 1), size)} ohm ${beyondOhm > 0 ? 'above' : 'below'} at state ${state}`;
  });
  const above = off.some(({ planned }) => planned.beyondOhm > 0);
  const look = above
    ? 'more loss than planned is in joints, the element or the soil'
    : 'less R than planned tells of a better soil, or a shorter element, than the site file has';
  return `Planned and measured disagree: R lies beyond what soil and method leave open, by ${beyond.join(', ')}; ${look}.`;
}
