import type { Quantity } from '../quantity-with-uncertainty.ts';
import { type FigureDifference, type Pair, type SharedVisit, SIDES, sideFigure } from './pair.ts';
import { coverageFactor, twoSidedProbability } from './student.ts';
import { type Component, effectiveDegreesOfFreedom } from './welch.ts';

/**
 * Difference of a figure between two sides by the law of propagation of uncertainty.
 * Source: JCGM 100:2008, clauses 5.1.2, 6.2.1 and G.4.1.
 *
 * @returns null where the figure or its sensitivity cannot be had at one of the visits
 */
export function firstOrder(pair: Pair): FigureDifference | null {
  const { measure, sides, errors, common, correction } = pair;
  const [b, a] = [sideFigure(measure, sides.before), sideFigure(measure, sides.after)];
  const all = new Contributions();
  const alone = { before: new Contributions(), after: new Contributions() };
  for (const side of SIDES) {
    for (const shared of sides[side]) {
      const squaredGain = squaredGainOf(pair, shared);
      if (squaredGain === null) return null;
      const shotShare = squaredGain.reflection / shared.visit.shotCount;
      for (const sum of [all, alone[side]]) {
        if (shared.shot !== null) sum.add(shared.shot, shotShare);
        sum.addKnown(squaredGain.turn * errors.turnRad ** 2);
      }
      all.add(errors.visit, squaredGain.reflection);
      alone[side].add(errors.visitAlone, squaredGain.reflection);
    }
    for (const change of common) alone[side].addKnown(change[side] ** 2);
  }
  if (b === null || a === null) return null;
  for (const change of common) all.addKnown((change.after - change.before) ** 2);
  all.add(correction, 1);
  const value = a - b + correction.value;
  const standardUncertainty = all.standardUncertainty();
  const degreesOfFreedom = all.degreesOfFreedom();
  return {
    before: alone.before.quantity(b),
    after: alone.after.quantity(a),
    difference: all.quantity(value),
    standardUncertainty,
    degreesOfFreedom,
    probability:
      standardUncertainty > 0 ? twoSidedProbability(value / standardUncertainty, degreesOfFreedom) : null,
    method: 'first order',
  };
}

function squaredGainOf(
  { measure }: Pair,
  { visit, share }: SharedVisit,
): { reflection: number; turn: number } | null {
  const sensitivity = visit.sensitivity(measure);
  return sensitivity === null
    ? null
    : { reflection: (share * sensitivity.gain) ** 2, turn: (share * sensitivity.turn) ** 2 };
}

/** Sums contributions; those that rest on one and the same estimate share its degrees of freedom. */
class Contributions {
  private readonly variances = new Map<Component, number>();
  private known = 0;

  add(estimate: Component, factor: number): void {
    this.variances.set(estimate, (this.variances.get(estimate) ?? 0) + factor * estimate.variance);
  }

  addKnown(variance: number): void {
    this.known += variance;
  }

  standardUncertainty(): number {
    return Math.sqrt([...this.variances.values()].reduce((sum, variance) => sum + variance, this.known));
  }

  degreesOfFreedom(): number {
    const estimated = [...this.variances].map(([{ degreesOfFreedom }, variance]) => ({
      variance,
      degreesOfFreedom,
    }));
    return effectiveDegreesOfFreedom([
      ...estimated,
      { variance: this.known, degreesOfFreedom: Number.POSITIVE_INFINITY },
    ]);
  }

  quantity(value: number): Quantity {
    const factor = coverageFactor(this.degreesOfFreedom());
    return { value, expandedUncertainty: factor * this.standardUncertainty(), coverageFactor: factor };
  }
}
