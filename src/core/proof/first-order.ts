import { Contributions } from './contributions.ts';
import type { FigureDifference, Pair } from './pair.ts';
import { sideEstimate } from './side-estimate.ts';
import { twoSidedProbability } from './student.ts';

/**
 * Difference of a figure between two sides by the law of propagation of uncertainty.
 * Source: JCGM 100:2008, clauses 5.1.2, 6.2.1 and G.4.1.
 *
 * @returns null where the figure or its sensitivity cannot be had at one of the visits
 */
export function firstOrder({ measure, sides, errors, common, correction }: Pair): FigureDifference | null {
  const before = sideEstimate(measure, sides.before, errors);
  const after = sideEstimate(measure, sides.after, errors);
  if (before === null || after === null) return null;
  const all = new Contributions();
  all.addAll(before.apart);
  all.addAll(after.apart);
  all.add(correction, 1);
  for (const change of common) {
    all.addKnown((change.after - change.before) ** 2);
    before.alone.addKnown(change.before ** 2);
    after.alone.addKnown(change.after ** 2);
  }
  const value = after.value - before.value + correction.value;
  const standardUncertainty = all.standardUncertainty();
  const degreesOfFreedom = all.degreesOfFreedom();
  return {
    before: before.alone.quantity(before.value),
    after: after.alone.quantity(after.value),
    difference: all.quantity(value),
    standardUncertainty,
    degreesOfFreedom,
    probability:
      standardUncertainty > 0 ? twoSidedProbability(value / standardUncertainty, degreesOfFreedom) : null,
    method: 'first order',
  };
}
