import { tCdf } from './t-cdf.ts';

/**
 * Quantile of Student's t: the distribution function is bracketed and halved until doubles tell nothing apart. It is
 * asked for a few times a comparison, so that plainness counts for more than speed.
 *
 * @param probability - below the quantile, between 0 and 1
 * @param degreesOfFreedom - above 0
 */
export function tQuantile(probability: number, degreesOfFreedom: number): number {
  if (probability === 0.5) return 0;
  // The lower tail keeps its digits where the upper one has lost them.
  if (probability > 0.5) return -tQuantile(1 - probability, degreesOfFreedom);
  let low = -1;
  while (tCdf(low, degreesOfFreedom) > probability && low > -1e300) low *= 2;
  let high = 0;
  for (;;) {
    const middle = (low + high) / 2;
    if (middle === low || middle === high) return middle;
    if (tCdf(middle, degreesOfFreedom) > probability) high = middle;
    else low = middle;
  }
}
