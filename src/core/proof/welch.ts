import { coverageFactor, twoSidedProbability } from './student.ts';
import { mean, standardDeviation } from './summary.ts';

/** One contribution to a combined uncertainty, in the unit of the result. */
export interface Component {
  readonly variance: number;
  /** Infinite for a contribution that is taken as known. */
  readonly degreesOfFreedom: number;
}

/**
 * Effective degrees of freedom of a sum of independent contributions.
 * Source: JCGM 100:2008, eq. (G.2b), Welch–Satterthwaite.
 *
 * @returns infinite when nothing uncertain was estimated
 */
export function effectiveDegreesOfFreedom(components: readonly Component[]): number {
  let total = 0;
  let divisor = 0;
  for (const { variance, degreesOfFreedom } of components) {
    total += variance;
    divisor += variance ** 2 / degreesOfFreedom;
  }
  return divisor > 0 ? total ** 2 / divisor : Number.POSITIVE_INFINITY;
}

/** Several estimates of one variance as one; null where none has any degrees of freedom. */
export function pooled(estimates: readonly (Component | null)[]): Component | null {
  let squares = 0;
  let degreesOfFreedom = 0;
  for (const estimate of estimates) {
    if (estimate === null) continue;
    squares += estimate.variance * estimate.degreesOfFreedom;
    degreesOfFreedom += estimate.degreesOfFreedom;
  }
  return degreesOfFreedom > 0 ? { variance: squares / degreesOfFreedom, degreesOfFreedom } : null;
}

/** A difference of two means and what Student's t says of it. */
export interface MeanDifference {
  readonly difference: number;
  readonly standardUncertainty: number;
  readonly degreesOfFreedom: number;
  readonly t: number;
  readonly probability: number;
  readonly expandedUncertainty: number;
}

/**
 * Difference of two independent means without assuming equal spread.
 * Source: B. L. Welch, The generalization of "Student's" problem…, Biometrika 34 (1947); NIST/SEMATECH 7.3.1.
 *
 * @returns first minus second; null when either has fewer than two values
 */
export function unpairedDifference(
  first: ArrayLike<number>,
  second: ArrayLike<number>,
): MeanDifference | null {
  const spreads = [standardDeviation(first), standardDeviation(second)] as const;
  if (spreads[0] === null || spreads[1] === null) return null;
  const components = [
    { variance: spreads[0] ** 2 / first.length, degreesOfFreedom: first.length - 1 },
    { variance: spreads[1] ** 2 / second.length, degreesOfFreedom: second.length - 1 },
  ];
  const variance = components.reduce((sum, component) => sum + component.variance, 0);
  return judged(mean(first) - mean(second), Math.sqrt(variance), effectiveDegreesOfFreedom(components));
}

/**
 * Mean of the differences pair by pair: what differs between pairs but not within them drops out.
 *
 * @returns first minus second; null for fewer than two pairs
 */
export function pairedDifference(first: ArrayLike<number>, second: ArrayLike<number>): MeanDifference | null {
  const differences = Float64Array.from(first, (value, i) => value - (second[i] as number));
  const spread = standardDeviation(differences);
  if (spread === null) return null;
  const n = differences.length;
  return judged(mean(differences), spread / Math.sqrt(n), n - 1);
}

function judged(difference: number, standardUncertainty: number, degreesOfFreedom: number): MeanDifference {
  const t = difference / standardUncertainty;
  return {
    difference,
    standardUncertainty,
    degreesOfFreedom,
    t,
    probability: twoSidedProbability(t, degreesOfFreedom),
    expandedUncertainty: coverageFactor(degreesOfFreedom) * standardUncertainty,
  };
}
