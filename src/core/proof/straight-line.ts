import { mean, sumOfSquares } from './summary.ts';

/** A least-squares straight line with the standard uncertainties of its parts. */
export interface StraightLine {
  readonly slope: number;
  readonly slopeUncertainty: number;
  readonly intercept: number;
  readonly interceptUncertainty: number;
  /** Standard deviation of the points about the line. */
  readonly residualDeviation: number;
  readonly degreesOfFreedom: number;
}

/**
 * Ordinary least squares, centred so that a large common offset costs no digits.
 * Source: JCGM 100:2008, annex H.3; any text on regression.
 *
 * @returns null for fewer than three points, or when all x are alike
 */
export function straightLine(xs: ArrayLike<number>, ys: ArrayLike<number>): StraightLine | null {
  const n = xs.length;
  if (n < 3) return null;
  const [meanX, meanY] = [mean(xs), mean(ys)];
  const squares = sumOfSquares(xs, meanX);
  if (!(squares > 0)) return null;
  let products = 0;
  for (let i = 0; i < n; i++) products += ((xs[i] as number) - meanX) * ((ys[i] as number) - meanY);
  const slope = products / squares;
  let misfit = 0;
  for (let i = 0; i < n; i++) {
    misfit += ((ys[i] as number) - meanY - slope * ((xs[i] as number) - meanX)) ** 2;
  }
  const degreesOfFreedom = n - 2;
  const residualDeviation = Math.sqrt(misfit / degreesOfFreedom);
  return {
    slope,
    slopeUncertainty: residualDeviation / Math.sqrt(squares),
    intercept: meanY - slope * meanX,
    interceptUncertainty: residualDeviation * Math.sqrt(1 / n + meanX ** 2 / squares),
    residualDeviation,
    degreesOfFreedom,
  };
}
