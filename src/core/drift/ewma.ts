/** An exponentially weighted moving average with its control limits. */
export interface EwmaChart {
  /** Length n. */
  readonly average: Float64Array;
  readonly upperLimit: Float64Array;
  readonly lowerLimit: Float64Array;
  /** Indices at which the average is outside its limits. */
  readonly signals: readonly number[];
}

/** Parameters of an EWMA chart. */
export interface EwmaOptions {
  readonly target: number;
  /** Of a single value. With autocorrelation, the long-run one: see {@link longRunFactor}. */
  readonly standardDeviation: number;
  /** Weight λ of a new value, 0 < λ ≤ 1. */
  readonly weight?: number;
  /** Width L of the limits in standard deviations of the average. */
  readonly limitWidth?: number;
  /**
   * Steps since the value before, 1 where values come as usual; a gap of k steps weighs the new value by
   * 1 − (1 − λ)^k, so that an old memory does not judge a visit months later. Length n.
   */
  readonly steps?: Float64Array;
}

/** λ, as in the handbook's example (NIST/SEMATECH, 6.3.2.4). */
export const EWMA_WEIGHT = 0.3;
/** Limits in standard deviations of the average. */
export const EWMA_LIMIT_WIDTH = 3;

/**
 * EWMA chart with exact limits at every point: z = λx + (1 − λ)z, var = λ²σ² + (1 − λ)²var, from z = target.
 * It finds small lasting shifts sooner than single values do.
 *
 * @param values - in time order, length n
 *
 * Source: NIST/SEMATECH e-Handbook of Statistical Methods, sec. 6.3.2.4; D. C. Montgomery, Introduction to
 * Statistical Quality Control, for limits that widen from the start. The step for gaps is ours.
 */
export function ewmaChart(values: Float64Array, options: EwmaOptions): EwmaChart {
  const { target, standardDeviation, weight = EWMA_WEIGHT, limitWidth = EWMA_LIMIT_WIDTH, steps } = options;
  const n = values.length;
  const average = new Float64Array(n);
  const upperLimit = new Float64Array(n);
  const lowerLimit = new Float64Array(n);
  const signals: number[] = [];
  let z = target;
  let variance = 0;
  for (let i = 0; i < n; i++) {
    const share = 1 - (1 - weight) ** Math.max(1, steps?.[i] ?? 1);
    z = share * (values[i] as number) + (1 - share) * z;
    variance = share * share + (1 - share) * (1 - share) * variance;
    const half = limitWidth * standardDeviation * Math.sqrt(variance);
    average[i] = z;
    upperLimit[i] = target + half;
    lowerLimit[i] = target - half;
    if (Math.abs(z - target) > half) signals.push(i);
  }
  return { average, upperLimit, lowerLimit, signals };
}
