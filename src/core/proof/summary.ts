/**
 * Mean by compensated summation, so that a large common offset costs no digits.
 * Source: A. Neumaier, Rundungsfehleranalyse einiger Verfahren zur Summation endlicher Summen, ZAMM 54 (1974).
 *
 * @returns NaN for no values
 */
export function mean(values: ArrayLike<number>): number {
  let sum = 0;
  let lost = 0;
  for (let i = 0; i < values.length; i++) {
    const value = values[i] as number;
    const next = sum + value;
    lost += Math.abs(sum) >= Math.abs(value) ? sum - next + value : value - next + sum;
    sum = next;
  }
  return (sum + lost) / values.length;
}

/**
 * Sum of squared deviations from the mean, by two passes with the correction for the mean's own rounding.
 * Source: T. F. Chan, G. H. Golub, R. J. LeVeque, Algorithms for computing the sample variance,
 * The American Statistician 37(3), 1983, eq. (1.7).
 */
export function sumOfSquares(values: ArrayLike<number>, centre: number = mean(values)): number {
  let squares = 0;
  let drift = 0;
  for (let i = 0; i < values.length; i++) {
    const deviation = (values[i] as number) - centre;
    squares += deviation * deviation;
    drift += deviation;
  }
  return squares - (drift * drift) / values.length;
}

/** Sample standard deviation (n − 1); null for fewer than two values, which carry no spread. */
export function standardDeviation(values: ArrayLike<number>): number | null {
  return values.length < 2 ? null : Math.sqrt(sumOfSquares(values) / (values.length - 1));
}

/** Middle value, or the mean of the two in the middle; NaN for no values. */
export function median(values: ArrayLike<number>): number {
  const sorted = Float64Array.from(values).sort();
  const half = sorted.length >> 1;
  const upper = sorted[half] ?? Number.NaN;
  return sorted.length % 2 === 1 ? upper : ((sorted[half - 1] ?? Number.NaN) + upper) / 2;
}
