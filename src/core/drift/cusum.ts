/** A two-sided cumulative sum. */
export interface CusumChart {
  /** Length n each, never negative. */
  readonly high: Float64Array;
  readonly low: Float64Array;
  /** Indices at which either sum passes the decision limit. */
  readonly signals: readonly number[];
}

/** Parameters of a tabular CUSUM chart. */
export interface CusumOptions {
  readonly target: number;
  /** Slack K per value in the unit of the values; half of the shift to be found. */
  readonly slack: number;
  /** Decision limit H in the unit of the values. */
  readonly limit: number;
  /** Start of both sums: 0, or H/2 for the fast initial response that finds a shift present from the start. */
  readonly headStart?: number;
}

/** K and H in standard deviations, as the handbooks advise for finding a shift of one. */
export const CUSUM_SLACK = 0.5;
/** H in standard deviations; see {@link CUSUM_SLACK}. */
export const CUSUM_LIMIT = 5;

/**
 * Tabular CUSUM: high = max(0, high + x − target − K), low = max(0, low + target − x − K). The sums go on after a
 * signal; they are not reset.
 *
 * @param values - in time order, length n
 *
 * Source: NIST/SEMATECH e-Handbook, sec. 6.3.2.3; J. M. Lucas and R. B. Crosier, "Fast Initial Response for CUSUM
 * Quality-Control Schemes", Technometrics 24(3), 1982, for the head start.
 */
export function cusumChart(values: Float64Array, options: CusumOptions): CusumChart {
  const { target, slack, limit, headStart = 0 } = options;
  const n = values.length;
  const high = new Float64Array(n);
  const low = new Float64Array(n);
  const signals: number[] = [];
  let above = headStart;
  let below = headStart;
  for (let i = 0; i < n; i++) {
    const x = (values[i] as number) - target;
    above = Math.max(0, above + x - slack);
    below = Math.max(0, below - x - slack);
    high[i] = above;
    low[i] = below;
    if (above > limit || below > limit) signals.push(i);
  }
  return { high, low, signals };
}
