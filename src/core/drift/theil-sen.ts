import normalQuantile from '@stdlib/stats-base-dists-normal-quantile';
import { longRunFactor } from './autocorrelation.ts';
import { kendallVariance } from './mann-kendall.ts';

/** A robust straight line. */
export interface Trend {
  /** Median of the slopes between all pairs, unit of y per unit of x. */
  readonly slope: number;
  /** Confidence interval of the slope; null when the series is too short for the level asked. */
  readonly interval: readonly [lower: number, upper: number] | null;
  /** Median of y − slope·x. */
  readonly intercept: number;
}

/** Longer series are first cut into this many blocks of neighbours, each replaced by its medians. */
export const MOST_PAIRED = 200;

/**
 * Theil–Sen trend: the median slope of all pairs, with the interval from Kendall's distribution. A quarter of the
 * values may be wild without moving it. x may be irregular; pairs of equal x give no slope.
 * Autocorrelation of the residuals widens the interval by √(long-run factor).
 *
 * Memory is n² / 2 slopes, so n is first reduced to at most {@link MOST_PAIRED} by medians of blocks.
 *
 * @param x - rising, length n
 * @param y - length n
 * @param confidence - of the two-sided interval
 * @returns null for less than two different x
 * Source: P. K. Sen, "Estimates of the regression coefficient based on Kendall's tau", JASA 63, 1968, 1379–1389.
 */
export function theilSen(x: Float64Array, y: Float64Array, confidence = 0.95): Trend | null {
  if (x.length > MOST_PAIRED) return theilSen(blockMedians(x), blockMedians(y), confidence);
  const n = x.length;
  const slopes = new Float64Array((n * (n - 1)) / 2);
  let count = 0;
  for (let i = 0; i < n; i++) {
    for (let j = i + 1; j < n; j++) {
      const dx = (x[j] as number) - (x[i] as number);
      if (dx !== 0) slopes[count++] = ((y[j] as number) - (y[i] as number)) / dx;
    }
  }
  if (count === 0) return null;
  const sorted = slopes.subarray(0, count).sort();
  const slope = medianOfSorted(sorted);
  const residuals = y.map((value, i) => value - slope * (x[i] as number));
  const z = normalQuantile(0.5 + confidence / 2, 0, 1);
  const width = z * Math.sqrt(kendallVariance(y) * longRunFactor(residuals, 2));
  const rank = Math.floor((sorted.length - width) / 2);
  const interval =
    rank >= 1 ? ([sorted[rank - 1] as number, sorted[sorted.length - rank] as number] as const) : null;
  return { slope, interval, intercept: median(residuals) };
}

/** @param values - length n ≥ 1, left as they are */
export function median(values: Float64Array): number {
  return medianOfSorted(Float64Array.from(values).sort());
}

function medianOfSorted(sorted: Float64Array): number {
  const middle = sorted.length >> 1;
  const upper = sorted[middle] as number;
  return sorted.length % 2 === 1 ? upper : ((sorted[middle - 1] as number) + upper) / 2;
}

function blockMedians(values: Float64Array): Float64Array {
  return Float64Array.from({ length: MOST_PAIRED }, (_, block) => {
    const from = Math.floor((block * values.length) / MOST_PAIRED);
    return median(values.subarray(from, Math.floor(((block + 1) * values.length) / MOST_PAIRED)));
  });
}
