import { median } from './summary.ts';

/** Fewer values cannot tell which of them is odd. */
const LEAST_VALUES = 4;

/** Robust deviations from the median beyond which a visit is not of the same scatter. */
export const ODD = 4;

/** Makes the median distance from the median the standard deviation of a normal scatter. */
const NORMAL = 1.4826;

/** A value against a sample: whether it lies beyond so many robust deviations, each at least what may scatter anyway. */
export type OddTest = (value: number, leastDeviation: number, limit?: number) => boolean;

/** Learns from a sample, up to half of which may be wild, what is odd; of a small one nothing is. */
export function oddAgainst(sample: readonly number[]): OddTest {
  if (sample.length < LEAST_VALUES) return () => false;
  const centre = median(sample);
  const deviation = NORMAL * median(sample.map((value) => Math.abs(value - centre)));
  return (value, leastDeviation, limit = ODD) =>
    Math.abs(value - centre) > limit * Math.max(deviation, leastDeviation);
}
