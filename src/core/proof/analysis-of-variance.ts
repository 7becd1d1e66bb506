import { mean, sumOfSquares } from './summary.ts';

/** One-way analysis of variance: how much lies within groups and how much between them. */
export interface OneWayVariance {
  readonly betweenDf: number;
  readonly betweenSumOfSquares: number;
  readonly withinDf: number;
  readonly withinSumOfSquares: number;
  /** Mean square between over mean square within; NaN when nothing varies within. */
  readonly f: number;
  /**
   * Variance that groups have on top of their members' scatter, never below 0; null for fewer than two groups
   * or no repeats. For unequal groups the usual weighted size n₀ is used.
   */
  readonly betweenComponent: number | null;
  /** Pooled variance within the groups; null without repeats. */
  readonly withinVariance: number | null;
}

/**
 * One-way analysis of variance with random groups.
 *
 * Source: S. R. Searle, G. Casella, C. E. McCulloch, Variance Components (1992), ch. 3: ANOVA estimators.
 *
 * @param groups - each with at least one value; empty ones are left out
 */
export function oneWayVariance(groups: readonly ArrayLike<number>[]): OneWayVariance {
  const filled = groups.filter((group) => group.length > 0);
  // Taken from one of the values, so that 1e12 + 0.1 keeps what digits it has.
  const offset = filled[0]?.[0] ?? 0;
  const shifted = filled.map((group) => Float64Array.from(group, (value) => value - offset));
  const count = shifted.reduce((sum, group) => sum + group.length, 0);
  const means = shifted.map((group) => mean(group));
  const grandMean = shifted.reduce((sum, group, i) => sum + group.length * (means[i] as number), 0) / count;
  let betweenSumOfSquares = 0;
  let withinSumOfSquares = 0;
  let squaredSizes = 0;
  shifted.forEach((group, i) => {
    betweenSumOfSquares += group.length * ((means[i] as number) - grandMean) ** 2;
    withinSumOfSquares += sumOfSquares(group, means[i]);
    squaredSizes += group.length ** 2;
  });
  const betweenDf = Math.max(0, filled.length - 1);
  const withinDf = count - filled.length;
  const withinVariance = withinDf > 0 ? withinSumOfSquares / withinDf : null;
  const betweenMeanSquare = betweenSumOfSquares / betweenDf;
  const typicalSize = (count - squaredSizes / count) / betweenDf;
  const betweenComponent =
    withinVariance === null || betweenDf === 0
      ? null
      : Math.max(0, (betweenMeanSquare - withinVariance) / typicalSize);
  return {
    betweenDf,
    betweenSumOfSquares,
    withinDf,
    withinSumOfSquares,
    f: withinVariance === null ? Number.NaN : betweenMeanSquare / withinVariance,
    betweenComponent,
    withinVariance,
  };
}
