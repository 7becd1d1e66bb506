import type { Quantity } from '../quantity-with-uncertainty.ts';
import type { FigureDifference, Pair } from './pair.ts';
import { coverageFactor, twoSidedProbability } from './student.ts';
import { type Component, effectiveDegreesOfFreedom } from './welch.ts';

const KNOWN = Number.POSITIVE_INFINITY;

/**
 * Difference of a figure between two visits by the law of propagation of uncertainty.
 * Source: JCGM 100:2008, clauses 5.1.2, 6.2.1 and G.4.1.
 *
 * @returns null where the figure or its sensitivity cannot be had at one of the visits
 */
export function firstOrder(pair: Pair): FigureDifference | null {
  const before = partsOf(pair, 'before');
  const after = partsOf(pair, 'after');
  if (before === null || after === null) return null;
  const { errors, shared } = pair;
  const shots =
    errors.shot.before === errors.shot.after
      ? [together(before.shot, after.shot)]
      : [before.shot, after.shot];
  const components = [
    ...shots,
    together(before.visit, after.visit),
    together(before.turn, after.turn),
    ...shared.map((change) => known((change.after - change.before) ** 2)),
    known(pair.extraVariance),
  ];
  const value = after.value - before.value;
  const standardUncertainty = rootSum(components);
  const degreesOfFreedom = effectiveDegreesOfFreedom(components);
  return {
    before: quantity(before.value, [...before.alone, ...shared.map((change) => known(change.before ** 2))]),
    after: quantity(after.value, [...after.alone, ...shared.map((change) => known(change.after ** 2))]),
    difference: quantity(value, components),
    standardUncertainty,
    degreesOfFreedom,
    probability:
      standardUncertainty > 0 ? twoSidedProbability(value / standardUncertainty, degreesOfFreedom) : null,
    method: 'first order',
  };
}

interface Parts {
  readonly value: number;
  readonly shot: Component;
  readonly visit: Component;
  readonly turn: Component;
  /** What makes the visit's own figure uncertain. */
  readonly alone: readonly Component[];
}

function partsOf({ measure, visits, errors }: Pair, side: 'before' | 'after'): Parts | null {
  const visit = visits[side];
  const value = visit.figures[measure];
  const sensitivity = visit.sensitivity(measure);
  if (value === null || sensitivity === null) return null;
  const squaredGain = sensitivity.gain ** 2;
  const shot = scaled(errors.shot[side] ?? known(0), squaredGain / visit.shotCount);
  const turn = known((sensitivity.turn * errors.turnRad) ** 2);
  return {
    value,
    shot,
    visit: scaled(errors.visit, squaredGain),
    turn,
    alone: [shot, turn, scaled(errors.visitAlone, squaredGain)],
  };
}

function quantity(value: number, components: readonly Component[]): Quantity {
  const factor = coverageFactor(effectiveDegreesOfFreedom(components));
  return { value, expandedUncertainty: factor * rootSum(components), coverageFactor: factor };
}

function rootSum(components: readonly Component[]): number {
  return Math.sqrt(components.reduce((sum, { variance }) => sum + variance, 0));
}

function known(variance: number): Component {
  return { variance, degreesOfFreedom: KNOWN };
}

function scaled({ variance, degreesOfFreedom }: Component, factor: number): Component {
  return { variance: variance * factor, degreesOfFreedom };
}

/** Two contributions that rest on one and the same estimate. */
function together(a: Component, b: Component): Component {
  return { variance: a.variance + b.variance, degreesOfFreedom: a.degreesOfFreedom };
}
