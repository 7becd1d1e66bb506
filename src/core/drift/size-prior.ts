/**
 * ln of a log-normal density: the prior of a change's size. It vanishes toward 0, since a cause too small to be noticed
 * is no different from none and is left to `none`.
 *
 * @param median - in the unit of the size
 * @param spread - standard deviation of ln size
 */
export function logNormalDensity(size: number, median: number, spread: number): number {
  const z = Math.log(size / median) / spread;
  return -0.5 * z * z - Math.log(size * spread * Math.sqrt(2 * Math.PI));
}

/** The same for a change of either sign. */
export function logSignedDensity(change: number, median: number, spread: number): number {
  return change === 0
    ? Number.NEGATIVE_INFINITY
    : logNormalDensity(Math.abs(change), median, spread) - Math.LN2;
}
