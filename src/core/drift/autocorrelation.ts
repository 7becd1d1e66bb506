/**
 * Lag-1 autocorrelation r1 = Σ(xᵢ − m)(xᵢ₊₁ − m)/Σ(xᵢ − m)², 0 for a constant series.
 *
 * @param values - length n ≥ 2
 * Source: NIST/SEMATECH e-Handbook, sec. 1.3.5.12.
 */
export function lagOneAutocorrelation(values: Float64Array): number {
  const n = values.length;
  let mean = 0;
  for (let i = 0; i < n; i++) mean += (values[i] as number) / n;
  let products = 0;
  let squares = 0;
  for (let i = 0; i < n; i++) {
    const x = (values[i] as number) - mean;
    squares += x * x;
    if (i + 1 < n) products += x * ((values[i + 1] as number) - mean);
  }
  return squares > 0 ? products / squares : 0;
}

/** Below this many values a lag-1 figure says nothing: its own standard error is 1/√n. */
const ENOUGH_VALUES = 8;
const GREATEST = 0.95;

/**
 * How much autocorrelation inflates the variance of a mean: (1 + r)/(1 − r) for a first-order process, with r
 * held between 0 and 0.95 and corrected for its small-sample bias (1 + 3r)/n, once for each level taken out of the
 * series. 1 for short series.
 * n divided by it is the number of independent values that the series is worth.
 *
 * @param residuals - what is left after the level, step or trend in question, so that these do not count as memory
 * @param levels - how many levels (or coefficients) were taken out
 * Source: M. G. Kendall, "Note on bias in the estimation of autocorrelation", Biometrika 41, 1954, for the bias.
 */
export function longRunFactor(residuals: Float64Array, levels = 1): number {
  const n = residuals.length;
  if (n < ENOUGH_VALUES) return 1;
  const raw = lagOneAutocorrelation(residuals);
  const r = Math.min(GREATEST, Math.max(0, raw + (levels * (1 + 3 * raw)) / n));
  return raw <= 1 / Math.sqrt(n) ? 1 : (1 + r) / (1 - r);
}
