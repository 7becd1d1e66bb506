/** A step this many times as wide as both its neighbours is a gap. Our own choice. */
const GAP = 5;

/**
 * Whether nothing was measured between a point and the next, as between two bands that one sweep holds: the step is far
 * wider than both its neighbours. A sweep whose step merely changes, or that is even on a logarithmic axis, has no gap.
 *
 * @param frequencyHz - strictly rising
 * @param index - the point just below; two points at least must lie on either side
 */
export function isGap(frequencyHz: Float64Array, index: number): boolean {
  if (index < 1 || index + 2 >= frequencyHz.length) return false;
  const step = (i: number): number => (frequencyHz[i + 1] as number) - (frequencyHz[i] as number);
  return step(index) > GAP * Math.max(step(index - 1), step(index + 1));
}
