import { longRunFactor } from './autocorrelation.ts';

/** One step in the level of a series, and whether the data call for it. */
export interface ChangePoint {
  /** The step lies after this many values: index of the first value of the new level. */
  readonly index: number;
  readonly levelBefore: number;
  readonly levelAfter: number;
  /** Residual sums of squares without and with the step. */
  readonly rssWithout: number;
  readonly rssWith: number;
  /** Bayesian information criteria, two parameters apart (the second level and where); lower is better. */
  readonly bicWithout: number;
  readonly bicWith: number;
  /**
   * (BIC without − BIC with) on the number of independent values that the series is worth: positive means that a
   * step is there beyond what memory in the series does by itself.
   */
  readonly evidence: number;
}

/** Fewest values on either side of a step. */
export const SHORTEST_SEGMENT = 3;

/**
 * Least-squares search for one step in the mean, exact over every place that leaves both segments long enough.
 *
 * Autocorrelation of the residuals around the two levels shrinks the evidence: the log-likelihood gain and ln n are
 * taken for n over {@link longRunFactor} values. Times do not matter, only their order.
 *
 * @param values - in time order, length n
 * @returns null when n is less than two segments
 * Source: J. Bai and P. Perron, "Computation and analysis of multiple structural change models", J. Appl.
 * Econometrics 18, 2003, for one break; BIC counts the break as a parameter, as there.
 */
export function findChangePoint(
  values: Float64Array,
  shortestSegment: number = SHORTEST_SEGMENT,
): ChangePoint | null {
  const n = values.length;
  if (n < 2 * shortestSegment) return null;
  let total = 0;
  for (let i = 0; i < n; i++) total += values[i] as number;
  const mean = total / n;
  let rssWithout = 0;
  for (let i = 0; i < n; i++) rssWithout += ((values[i] as number) - mean) ** 2;

  let [index, gain, sum] = [shortestSegment, -1, 0];
  for (let i = 1; i <= n - shortestSegment; i++) {
    sum += (values[i - 1] as number) - mean;
    if (i < shortestSegment) continue;
    // Taking deviations from the common mean keeps the digits: the gain is sum²·n/(i(n − i)).
    const here = (sum * sum * n) / (i * (n - i));
    if (here > gain) [index, gain] = [i, here];
  }
  const levelBefore = meanOf(values, 0, index);
  const levelAfter = meanOf(values, index, n);
  const residuals = values.map((x, i) => x - (i < index ? levelBefore : levelAfter));
  let rssWith = 0;
  for (let i = 0; i < n; i++) rssWith += (residuals[i] as number) ** 2;

  const worth = n / longRunFactor(residuals, 2);
  return {
    index,
    levelBefore,
    levelAfter,
    rssWithout,
    rssWith,
    bicWithout: criterion(n, rssWithout, 2),
    bicWith: criterion(n, rssWith, 4),
    evidence:
      rssWithout === 0 ? -2 * Math.log(worth) : worth * Math.log(rssWithout / rssWith) - 2 * Math.log(worth),
  };
}

/** −2 ln L of a normal model at its best variance, plus ln n for each parameter. */
function criterion(n: number, rss: number, parameters: number): number {
  return n * (Math.log(rss / n) + Math.log(2 * Math.PI) + 1) + parameters * Math.log(n);
}

function meanOf(values: Float64Array, from: number, to: number): number {
  let sum = 0;
  for (let i = from; i < to; i++) sum += values[i] as number;
  return sum / (to - from);
}
