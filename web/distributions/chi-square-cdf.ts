import { continuedFraction } from './continued-fraction.ts';
import { logGamma } from './log-gamma.ts';

/**
 * Distribution function of chi-square: the regularised lower incomplete gamma function P(k/2, x/2).
 * Source: NIST Digital Library of Mathematical Functions, eqs. 8.11.4 (series) and 8.9.2 (continued fraction).
 *
 * @param degreesOfFreedom - above 0
 */
export function chiSquareCdf(x: number, degreesOfFreedom: number): number {
  if (!(x > 0)) return 0;
  if (x === Number.POSITIVE_INFINITY) return 1;
  const [a, z] = [degreesOfFreedom / 2, x / 2];
  const front = Math.exp(a * Math.log(z) - z - logGamma(a));
  if (z < a + 1) {
    let term = 1 / a;
    let sum = term;
    for (let n = 1; term > 1e-17 * sum; n++) {
      term *= z / (a + n);
      sum += term;
    }
    return front * sum;
  }
  return 1 - front / continuedFraction(z + 1 - a, (n) => [n * (a - n), z + 1 - a + 2 * n]);
}
