import normalCdf from '@stdlib/stats-base-dists-normal-cdf';

/** Whether a series rises or falls, whatever the shape. */
export interface MannKendall {
  readonly s: number;
  readonly tau: number;
  readonly variance: number;
  readonly z: number;
  /** Two-sided, by the normal approximation. */
  readonly p: number;
}

/**
 * Mann–Kendall test for a trend, with the correction for ties. It assumes independent values.
 *
 * @param values - in time order, length n ≥ 2
 * Source: H. B. Mann, "Nonparametric tests against trend", Econometrica 13, 1945; M. G. Kendall, Rank Correlation
 * Methods, 1975.
 */
export function mannKendall(values: Float64Array): MannKendall {
  const n = values.length;
  let s = 0;
  for (let i = 0; i < n; i++) {
    for (let j = i + 1; j < n; j++) s += Math.sign((values[j] as number) - (values[i] as number));
  }
  const variance = kendallVariance(values);
  const z = variance > 0 ? (s - Math.sign(s)) / Math.sqrt(variance) : 0;
  return { s, tau: s / ((n * (n - 1)) / 2), variance, z, p: 2 * normalCdf(-Math.abs(z), 0, 1) };
}

/** Variance of S under no trend: n(n − 1)(2n + 5)/18 less the same of every group of ties. */
export function kendallVariance(values: Float64Array): number {
  const sorted = Float64Array.from(values).sort();
  const term = (t: number): number => (t * (t - 1) * (2 * t + 5)) / 18;
  let variance = term(sorted.length);
  let run = 1;
  for (let i = 1; i <= sorted.length; i++) {
    if (sorted[i] === sorted[i - 1]) run++;
    else {
      variance -= term(run);
      run = 1;
    }
  }
  return variance;
}
