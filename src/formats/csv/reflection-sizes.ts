import { OpenReading, type ProblemList } from '../problem.ts';
import { columnsText } from './columns-text.ts';
import type { Header } from './header.ts';

/**
 * |Γ| of a column that gives it as a plain number, in dB, or as return loss. Return loss comes with either sign and
 * the level of a reflection sometimes with the wrong one: the sign that most of the column has is that of a passive
 * antenna. A bare `S11` is in dB when it goes below zero, and taken as plain (noted) when it stays within 0 to 1.
 *
 * @param column - the one of the header that the values stand in
 * @throws UserError `reflection-form-open` where neither fits
 */
export function linearSizes(
  values: Float64Array,
  header: Header,
  column: number,
  problems: ProblemList,
): Float64Array {
  const role = header[column]?.role;
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
    const choices = (['return-loss', 'reflection-size'] as const).map((role) => ({
      columns: columnsText(header, { [column]: role }),
    }));
    const range = `a bare reflection from ${least} to ${most}`;
    if (least >= 0 && most <= 1) {
      problems.note(
        'reflection-form-assumed',
        `${range} is taken as |Γ|, not as return loss in dB`,
        null,
        null,
        {
          choices,
          examples: false,
        },
      );
      return values;
    }
    if (least >= 0) {
      const readings = `${range} may be return loss in dB or a plain |Γ| above 1`;
      throw new OpenReading('reflection-form-open', readings, choices);
    }
  }
  if (role === 'reflection-db' && sum > 0) {
    problems.note('level-sign', 'reflection levels are mostly above 0 dB: read as return loss');
  }
  const towardsLoss = sum > 0 ? -1 : 1;
  return values.map((value) => 10 ** ((towardsLoss * value) / 20));
}
