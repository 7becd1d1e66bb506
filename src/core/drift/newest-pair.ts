import { studentQuantile } from '../proof/student.ts';
import { mean, standardDeviation } from '../proof/summary.ts';

/** Fewer values tell no scatter. */
const FEWEST_BEFORE = 3;
/** A single healthy value lies beyond what the others predict once in a hundred; two in a row on one side, seldom. */
const WITHIN = 0.995;
/** Keeps values that are the same but for rounding from counting as a step. */
const ROUNDING = 1e-9;

/**
 * Whether the two newest values, and not the one before them, lie on the same side beyond what the values before lead
 * one to expect of one more: a step too young for a search that asks three values of each level. Without this a second
 * bad visit would be held against a first one that had been taken for healthy.
 *
 * @param values - in time order, without what conditions explain
 */
export function newestPairIsBeyond(values: Float64Array): boolean {
  const before = values.subarray(0, -2);
  const [first, second] = [sideOf(values.at(-2), before), sideOf(values.at(-1), before)];
  return first !== 0 && first === second && sideOf(before.at(-1), before.subarray(0, -1)) === 0;
}

/**
 * 1 above and −1 below the prediction interval of one more value of a normal sample, mean ± t·s·√(1 + 1/n) at 99 %; 0
 * within it, or where the sample is too small to tell.
 * Source: any text on prediction intervals (memory).
 */
function sideOf(value: number | undefined, sample: Float64Array): -1 | 0 | 1 {
  if (value === undefined || sample.length < FEWEST_BEFORE) return 0;
  const expected = mean(sample);
  const deviation = standardDeviation(sample) as number;
  const t = studentQuantile(WITHIN, sample.length - 1);
  const reach = t * deviation * Math.sqrt(1 + 1 / sample.length) + ROUNDING * Math.abs(expected);
  return Math.abs(value - expected) <= reach ? 0 : value > expected ? 1 : -1;
}
