import { continuedFraction } from './continued-fraction.ts';
import { logGamma } from './log-gamma.ts';

/**
 * Distribution function of Student's t.
 * @param degreesOfFreedom - above 0
 */
export function tCdf(t: number, degreesOfFreedom: number): number {
  const v = degreesOfFreedom;
  const tail = 0.5 * incompleteBeta(v / (v + t * t), (t * t) / (v + t * t), v / 2, 0.5);
  return t < 0 ? tail : 1 - tail;
}

/**
 * Regularised incomplete beta function I_x(a, b).
 * Source: NIST Digital Library of Mathematical Functions, eqs. 8.17.4 and 8.17.22.
 *
 * @param rest - 1 − x, given apart because the difference would lose its digits
 */
function incompleteBeta(x: number, rest: number, a: number, b: number): number {
  if (x <= 0) return 0;
  if (rest <= 0) return 1;
  if (x > (a + 1) / (a + b + 2)) return 1 - incompleteBeta(rest, x, b, a);
  const front = Math.exp(
    logGamma(a + b) - logGamma(a) - logGamma(b) + a * Math.log1p(-rest) + b * Math.log(rest),
  );
  const fraction = continuedFraction(1, (n) => {
    const m = n >> 1;
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    // The first term of all, a = 1, is the 1 on top of the fraction.
    return [n % 2 === 0 ? even : odd, 1];
  });
  return front / (a * fraction);
}
