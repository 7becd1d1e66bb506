import { choleskyInPlace, dot, type Factor, whiten } from './cholesky.ts';
import type { Columns } from './columns.ts';

/** Vectors that share one covariance, less a mean for some of them. */
export interface Contrasts {
  readonly vectors: readonly Float64Array[];
  /** Vectors less the means taken off. */
  readonly degrees: number;
}

/** ln likelihood of contrasts under a covariance, without the constants that all covariances share. Overwrites it. */
export function logLikelihoodOf({ vectors, degrees }: Contrasts, matrix: Float64Array, size: number): number {
  if (degrees === 0) return 0;
  const factor: Factor = choleskyInPlace(matrix, size);
  let squares = 0;
  for (const vector of vectors) {
    const white = whiten(factor, vector);
    squares += dot(white, white);
  }
  return -0.5 * (squares + degrees * factor.logDeterminant);
}

/** Some bins of a curve, real parts then imaginary ones. */
export function pick({ re, im }: Columns, bins: readonly number[]): Float64Array {
  const picked = new Float64Array(2 * bins.length);
  bins.forEach((bin, i) => {
    picked[i] = re[bin] as number;
    picked[bins.length + i] = im[bin] as number;
  });
  return picked;
}

/** Adds variances to the diagonal, those of the real parts again for the imaginary ones. */
export function addDiagonal(matrix: Float64Array, variance: ArrayLike<number>): void {
  const half = variance.length;
  for (let i = 0; i < 2 * half; i++) addTo(matrix, i * (2 * half + 1), variance[i % half] as number);
}

/** Adds sd²·v·vᵀ to the lower triangle. */
export function addOuter(matrix: Float64Array, v: Float64Array, sd: number): void {
  const n = v.length;
  for (let i = 0; i < n; i++) {
    const scale = sd * sd * (v[i] as number);
    if (scale === 0) continue;
    for (let j = 0; j <= i; j++) matrix[i * n + j] = (matrix[i * n + j] as number) + scale * (v[j] as number);
  }
}

/** The sum of v·vᵀ over some vectors, lower triangle, row by row. */
export function sumOuter(vectors: readonly Float64Array[], rows: number): Float64Array {
  const matrix = new Float64Array(rows * rows);
  for (const vector of vectors) addOuter(matrix, vector, 1);
  return matrix;
}

/** Adds to one entry in place. */
export function addTo(matrix: Float64Array, index: number, value: number): void {
  matrix[index] = (matrix[index] as number) + value;
}
