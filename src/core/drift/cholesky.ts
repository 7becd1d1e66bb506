/** Lower-triangular factor of a covariance matrix, row by row in one column of length n². */
export interface Factor {
  readonly size: number;
  readonly lower: Float64Array;
  /** ln of the determinant of the covariance. */
  readonly logDeterminant: number;
}

/**
 * Cholesky factor of a symmetric positive definite matrix. Our own because thousands of short vectors are whitened
 * by each factor, and the library's solve wraps every one of them in a matrix.
 *
 * @param matrix - row by row, length n²; overwritten by the factor
 * @throws RangeError when the matrix is not positive definite, which a covariance with a noise floor always is
 */
export function choleskyInPlace(matrix: Float64Array, size: number): Factor {
  let logDeterminant = 0;
  for (let i = 0; i < size; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = matrix[i * size + j] as number;
      for (let k = 0; k < j; k++) sum -= (matrix[i * size + k] as number) * (matrix[j * size + k] as number);
      if (i !== j) {
        matrix[i * size + j] = sum / (matrix[j * size + j] as number);
        continue;
      }
      if (!(sum > 0)) throw new RangeError(`row ${i} of the covariance is not positive definite`);
      matrix[i * size + i] = Math.sqrt(sum);
      logDeterminant += Math.log(sum);
    }
  }
  return { size, lower: matrix, logDeterminant };
}

/** Solves L y = x, so that y has unit covariance when x has the factored one. */
export function whiten(factor: Factor, x: Float64Array): Float64Array {
  const { size, lower } = factor;
  const y = new Float64Array(size);
  for (let i = 0; i < size; i++) {
    let sum = x[i] as number;
    const row = i * size;
    for (let k = 0; k < i; k++) sum -= (lower[row + k] as number) * (y[k] as number);
    y[i] = sum / (lower[row + i] as number);
  }
  return y;
}

/** Σ a·b over columns of equal length. */
export function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += (a[i] as number) * (b[i] as number);
  return sum;
}
