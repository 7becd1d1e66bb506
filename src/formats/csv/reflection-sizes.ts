import { type ProblemList, wholeFile } from '../problem.ts';
import type { Role } from './header-words.ts';

/**
 * |Γ| of a column that gives it as a plain number, in dB, or as return loss. Return loss comes with either sign and
 * the level of a reflection sometimes with the wrong one: the sign that most of the column has is that of a passive
 * antenna. A bare `S11` is in dB when it goes below zero and plain when it stays within 0 to 1.
 *
 * @param role - the column's
 * @throws UserError `reflection-form-open` where neither fits
 */
export function linearSizes(values: Float64Array, role: Role, problems: ProblemList): Float64Array {
  if (role === 'reflection-size') return values;
  let [sum, least, most] = [0, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (let i = 0; i < values.length; i++) {
    const value = values[i] as number;
    if (Number.isNaN(value)) continue;
    sum += value;
    least = Math.min(least, value);
    most = Math.max(most, value);
  }
  if (role === 'reflection') {
    if (least >= 0 && most <= 1) return values;
    if (least >= 0) {
      throw wholeFile(
        'reflection-form-open',
        `the reflection from ${least} to ${most} may be return loss in dB or a plain |Γ| above 1; say --columns with "return loss" or "|S11|"`,
      );
    }
  }
  if (role === 'reflection-db' && sum > 0) {
    problems.note('level-sign', 'reflection levels are mostly above 0 dB: read as return loss');
  }
  const towardsLoss = sum > 0 ? -1 : 1;
  return values.map((value) => 10 ** ((towardsLoss * value) / 20));
}
