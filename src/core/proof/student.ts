import tCdf from '@stdlib/stats-base-dists-t-cdf';
import tQuantile from '@stdlib/stats-base-dists-t-quantile';

/** The level at which expanded uncertainties and verdicts are stated. */
export const CONFIDENCE = 0.95;

/** Beyond this many degrees of freedom Student's t and the normal distribution agree to 1e-6. */
const AS_GOOD_AS_NORMAL = 1e6;

/**
 * Quantile of Student's t.
 *
 * @param probability - below the quantile, 0 to 1
 * @param degreesOfFreedom - above 0, also fractional or infinite (then the normal quantile)
 */
export function studentQuantile(probability: number, degreesOfFreedom: number): number {
  return tQuantile(probability, Math.min(degreesOfFreedom, AS_GOOD_AS_NORMAL));
}

/** Probability, 0 to 1, that |t| is at least as large as the one given when there is no difference. */
export function twoSidedProbability(t: number, degreesOfFreedom: number): number {
  return 2 * tCdf(-Math.abs(t), Math.min(degreesOfFreedom, AS_GOOD_AS_NORMAL));
}

/**
 * Coverage factor for about 95 % from the effective degrees of freedom: Student's t, and never less than the
 * conventional 2, which it reaches at 60 degrees of freedom.
 *
 * Source: JCGM 100:2008, clauses 6.3.3 and G.6.4.
 */
export function coverageFactor(degreesOfFreedom: number): number {
  return Math.max(2, studentQuantile((1 + CONFIDENCE) / 2, degreesOfFreedom));
}
