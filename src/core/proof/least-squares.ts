import { levenbergMarquardt } from 'ml-levenberg-marquardt';
import { inverse, Matrix, QrDecomposition } from 'ml-matrix';

/** A curve to be fitted to points. */
export interface LeastSquaresProblem {
  readonly start: readonly number[];
  readonly observed: ArrayLike<number>;
  /** Standard uncertainty of each point; left out, all are alike and judged by the misfit itself. */
  readonly uncertainty?: ArrayLike<number>;
  /** For curves that are slow to compute: stop when a further step could remove only this part of the misfit. */
  readonly goodEnough?: number;
  /** The curve at all points for some parameters; anything not finite means that it cannot be had there. */
  predict(parameters: readonly number[]): ArrayLike<number>;
}

/** Where a fit ended, and how well it is known. */
export interface LeastSquaresFit {
  readonly converged: boolean;
  /** Why it stopped, in words. */
  readonly why: string;
  readonly parameters: readonly number[];
  /** Null where the points do not determine the parameters. */
  readonly covariance: readonly (readonly number[])[] | null;
  /** Of the misfits, each over its uncertainty (over 1 when none was given). */
  readonly sumOfSquares: number;
  readonly degreesOfFreedom: number;
}

const ROUNDS = 40;
const STEPS_A_ROUND = 10;
const STEPS_OF_SLOW_CURVES = 3;
const DAMPINGS: readonly number[] = [1e-2, 1, 100, 1e4];

/** Step of the central differences, as a fraction of a parameter: the cube root of double precision. */
const STEP = 6e-6;

/** The part of the misfit that a further step could remove, against the part that it cannot. */
const OFFSET_AT_MOST = 1e-6;

/**
 * Fits a curve by the Levenberg–Marquardt method of the library, in rounds. Before each round the parameters are
 * scaled by how strongly the curve answers to them, for the library's damping is the same for all. A fit counts as
 * converged only when the misfit stands at a right angle to everything the parameters can still do.
 *
 * Source: D. M. Bates and D. G. Watts, A relative offset orthogonality convergence criterion for nonlinear least
 * squares, Technometrics 23(2), 1981.
 */
export function leastSquares(problem: LeastSquaresProblem): LeastSquaresFit {
  const whitened = whiten(problem);
  let parameters = [...problem.start];
  let left = whitened.sumOfSquares(parameters);
  const stop = (why: string, converged = false): LeastSquaresFit => ({
    converged,
    why,
    parameters,
    covariance: covarianceAt(whitened, parameters, problem.uncertainty === undefined ? left : null),
    sumOfSquares: left,
    degreesOfFreedom: whitened.count - parameters.length,
  });
  if (!Number.isFinite(left)) return stop('the curve has no value at the start');
  const goodEnough = problem.goodEnough ?? OFFSET_AT_MOST;
  const steps = problem.goodEnough === undefined ? STEPS_A_ROUND : STEPS_OF_SLOW_CURVES;
  let damping = 0;
  for (let round = 0; round < ROUNDS; round++) {
    const next = improve(whitened, parameters, DAMPINGS[damping] as number, steps);
    if (next === null) return stop('the points do not determine the parameters from here');
    const remaining = whitened.sumOfSquares(next);
    if (remaining < left) {
      parameters = next;
      left = remaining;
      damping = 0;
    } else if (++damping === DAMPINGS.length) break;
    if (relativeOffset(whitened, parameters) < goodEnough) return stop('converged', true);
  }
  return relativeOffset(whitened, parameters) < 100 * goodEnough
    ? stop('converged, as far as rounding allows', true)
    : stop(
        damping === DAMPINGS.length ? 'no further step improves the fit' : 'it was still improving slowly',
      );
}

/** The problem with every point divided by its uncertainty. */
interface Whitened {
  readonly count: number;
  readonly observed: Float64Array;
  predict(parameters: readonly number[]): Float64Array;
  sumOfSquares(parameters: readonly number[]): number;
  /** Derivatives of all points, a column a parameter. */
  jacobian(parameters: readonly number[]): Float64Array[];
}

function whiten({ observed, uncertainty, predict }: LeastSquaresProblem): Whitened {
  const divisor = (i: number): number => uncertainty?.[i] ?? 1;
  const scaled = (values: ArrayLike<number>): Float64Array =>
    Float64Array.from(values, (value, i) => value / divisor(i));
  const points = scaled(observed);
  const curve = (parameters: readonly number[]): Float64Array => scaled(predict(parameters));
  return {
    count: points.length,
    observed: points,
    predict: curve,
    sumOfSquares: (parameters) => {
      const values = curve(parameters);
      return points.reduce((sum, point, i) => sum + (point - (values[i] as number)) ** 2, 0);
    },
    jacobian: (parameters) =>
      parameters.map((value, k) => {
        const step = STEP * (Math.abs(value) || 1);
        const at = (moved: number): Float64Array =>
          curve(parameters.map((other, j) => (j === k ? moved : other)));
        const [high, low] = [at(value + step), at(value - step)];
        return high.map((point, i) => (point - (low[i] as number)) / (2 * step));
      }),
  };
}

/** One round of the library's steps; null where the normal equations cannot be solved. */
function improve(
  problem: Whitened,
  origin: readonly number[],
  damping: number,
  maxIterations: number,
): number[] | null {
  const scales = problem.jacobian(origin).map((column) => 1 / (Math.hypot(...column) || 1));
  const unscaled = (steps: readonly number[]): number[] =>
    origin.map((value, k) => value + (steps[k] as number) * (scales[k] as number));
  const indices = Array.from({ length: problem.count }, (_, i) => i);
  try {
    const { parameterValues } = levenbergMarquardt(
      { x: indices, y: problem.observed },
      (steps) => {
        const values = problem.predict(unscaled(steps));
        return (i) => values[i] as number;
      },
      {
        initialValues: origin.map(() => 0),
        damping,
        maxIterations,
        errorTolerance: 0,
        jacobianFunction: (steps) => {
          const columns = problem.jacobian(unscaled(steps));
          return (i) => columns.map((column, k) => (column[i] as number) * (scales[k] as number));
        },
      },
    );
    return unscaled(parameterValues);
  } catch {
    return null;
  }
}

function relativeOffset(problem: Whitened, parameters: readonly number[]): number {
  const values = problem.predict(parameters);
  const misfit = problem.observed.map((point, i) => point - (values[i] as number));
  const total = Math.hypot(...misfit);
  if (total === 0) return 0;
  const columns = problem.jacobian(parameters).map((column) => Array.from(column));
  if (columns.flat().some((value) => !Number.isFinite(value))) return Number.POSITIVE_INFINITY;
  const directions = new QrDecomposition(new Matrix(columns).transpose()).orthogonalMatrix;
  const removable = directions.transpose().mmul(Matrix.columnVector(misfit)).norm();
  const freedom = Math.max(1, problem.count - parameters.length);
  const settled = Math.sqrt(Math.max(total ** 2 - removable ** 2, 0) / freedom);
  return removable / Math.sqrt(parameters.length) / (settled || total);
}

/** Inverse of JᵀJ, times the variance of the misfit where no uncertainties were given. */
function covarianceAt(
  problem: Whitened,
  parameters: readonly number[],
  misfitSquares: number | null,
): number[][] | null {
  const columns = problem.jacobian(parameters);
  const scales = columns.map((column) => 1 / (Math.hypot(...column) || 1));
  const scaled = new Matrix(
    columns.map((column, k) => Array.from(column, (value) => value * (scales[k] as number))),
  );
  const freedom = problem.count - parameters.length;
  if (misfitSquares !== null && freedom < 1) return null;
  const variance = misfitSquares === null ? 1 : misfitSquares / freedom;
  try {
    const inverted = inverse(scaled.mmul(scaled.transpose())).to2DArray();
    const covariance = inverted.map((row, i) =>
      row.map((value, j) => value * (scales[i] as number) * (scales[j] as number) * variance),
    );
    return covariance.every((row, i) => (row[i] as number) >= 0 && row.every(Number.isFinite))
      ? covariance
      : null;
  } catch {
    return null;
  }
}
