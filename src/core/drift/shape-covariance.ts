import { dot, type Factor, whiten } from './cholesky.ts';

/** Shapes that a cause leaves free, then shapes of its model's own error, all stacked and at unit size. */
export interface Shapes {
  readonly free: readonly Float64Array[];
  readonly error: readonly Float64Array[];
}

/** How far a model's shape may be off, relative to its effect, with the prior weight of each. */
export interface ModelError {
  readonly relative: number;
  readonly weight: number;
}

/** Shapes seen through one covariance, ready for many residuals. */
export interface WhitenedShapes {
  readonly vectors: readonly Float64Array[];
  readonly logDeterminant: number;
  /** One factor of I + VᵀC⁻¹V for each size of the model's error. */
  readonly sizes: readonly SizedFactor[];
}

interface SizedFactor {
  readonly logWeight: number;
  readonly scale: Float64Array;
  /** Lower triangle, row by row. */
  readonly lower: readonly Float64Array[];
  readonly logDeterminant: number;
}

/** Whitens shapes and factors the small matrix of the determinant lemma. */
export function whitenShapes(factor: Factor, shapes: Shapes, errors: readonly ModelError[]): WhitenedShapes {
  const vectors = [...shapes.free, ...shapes.error].map((shape) => whiten(factor, shape));
  const gram = vectors.map((a) => vectors.map((b) => dot(a, b)));
  return {
    vectors,
    logDeterminant: factor.logDeterminant,
    sizes: errors.map(({ relative, weight }) => {
      const scale = Float64Array.from(vectors, (_, i) => (i < shapes.free.length ? 1 : relative));
      return { logWeight: Math.log(weight), scale, ...factorOf(gram, scale) };
    }),
  };
}

/**
 * ln of the density of a residual under the normal covariance C + VVᵀ, V being the free shapes and the error shapes at
 * each size in turn, averaged over the sizes. Constants that all causes share are left out.
 *
 * @param white - the residual, whitened by the same factor
 */
export function logDensity(white: Float64Array, shapes: WhitenedShapes): number {
  const base = -0.5 * (dot(white, white) + shapes.logDeterminant);
  const along = Float64Array.from(shapes.vectors, (vector) => dot(vector, white));
  let best = Number.NEGATIVE_INFINITY;
  const terms = shapes.sizes.map((size) => {
    const term = size.logWeight + 0.5 * (explained(size, along) - size.logDeterminant);
    best = Math.max(best, term);
    return term;
  });
  return base + best + Math.log(terms.reduce((sum, term) => sum + Math.exp(term - best), 0));
}

/** Cholesky factor of I + S·G·S. */
function factorOf(
  gram: readonly (readonly number[])[],
  scale: Float64Array,
): { lower: Float64Array[]; logDeterminant: number } {
  const lower: Float64Array[] = [];
  let logDeterminant = 0;
  for (let i = 0; i < scale.length; i++) {
    const row = new Float64Array(i + 1);
    for (let j = 0; j <= i; j++) {
      const other = j === i ? row : (lower[j] as Float64Array);
      let sum = (gram[i]?.[j] as number) * (scale[i] as number) * (scale[j] as number) + (i === j ? 1 : 0);
      for (let m = 0; m < j; m++) sum -= (row[m] as number) * (other[m] as number);
      row[j] = i === j ? Math.sqrt(sum) : sum / (other[j] as number);
    }
    lower.push(row);
    logDeterminant += 2 * Math.log(row[i] as number);
  }
  return { lower, logDeterminant };
}

/** hᵀ(I + SGS)⁻¹h with h = S·along. */
function explained({ lower, scale }: SizedFactor, along: Float64Array): number {
  const y = new Float64Array(scale.length);
  let sum = 0;
  for (let i = 0; i < y.length; i++) {
    const row = lower[i] as Float64Array;
    let value = (along[i] as number) * (scale[i] as number);
    for (let m = 0; m < i; m++) value -= (row[m] as number) * (y[m] as number);
    y[i] = value / (row[i] as number);
    sum += (y[i] as number) ** 2;
  }
  return sum;
}
