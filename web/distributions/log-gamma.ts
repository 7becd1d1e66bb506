const HALF_LOG_TWO_PI = 0.5 * Math.log(2 * Math.PI);
/** Below this the argument is first raised by the recurrence, where the series is good to 1e-15. */
const LARGE = 12;

/**
 * Logarithm of the gamma function for positive arguments: Stirling's series, after raising small arguments.
 * Source: NIST Digital Library of Mathematical Functions, eqs. 5.5.1 and 5.11.1.
 */
export function logGamma(x: number): number {
  let z = x;
  let product = 1;
  for (; z < LARGE; z++) product *= z;
  const inverse = 1 / (z * z);
  const series =
    (1 / 12 - inverse * (1 / 360 - inverse * (1 / 1260 - inverse * (1 / 1680 - inverse / 1188)))) / z;
  return (z - 0.5) * Math.log(z) - z + HALF_LOG_TWO_PI + series - Math.log(product);
}
