import { type Baseline, meanOfShots, type StretchSpan } from './baseline.ts';
import { choleskyInPlace, dot, type Factor, whiten } from './cholesky.ts';
import { type Columns, differenceOf, stacked } from './columns.ts';

/** How far apart two healthy visits of one site are. */
export interface ScatterSize {
  /** Standard deviation of ln σ of the soil from visit to visit. */
  readonly soil: number;
  /** Standard deviation in |Γ| of each part of the connector's and instrument's own error. */
  readonly connection: number;
}

/** One size of scatter with its posterior weight after the healthy visits. */
export interface WeightedScatter {
  readonly size: ScatterSize;
  /** ln of prior × likelihood of the deviations of the healthy visits, not normalised. */
  readonly logWeight: number;
}

/** The shapes that scatter takes, each at unit size over all bins. */
export interface ScatterShapes {
  /** dΓ for a change of ln σ by one, and what permittivity does apart from it. */
  readonly soil: readonly Columns[];
  /** Errors of an error box: constant, ∝ Γ and ∝ Γ², each also sloping with frequency. */
  readonly connection: readonly Columns[];
}

/** Steps fine enough that the likelihood of some twenty visits does not fall between two. */
const SOIL_SIZES = Array.from({ length: 7 }, (_, i) => 0.01 * 1.7 ** i);
const CONNECTION_SIZES = Array.from({ length: 13 }, (_, i) => 0.0002 * 1.42 ** i);

/**
 * Priors, log-normal within a factor 2.5: soil median 0.06 of ln σ; connection median 0.0012 of Γ, together with what
 * the repeats within the healthy visits leave in a visit's mean, so that one visit of unsteady shots is not taken for
 * a steady one.
 */
const SOIL_MEDIAN = 0.06;
const CONNECTION_MEDIAN = 0.0012;
const SPREAD = Math.log(2.5);

/**
 * Every pair of sizes with its weight: the stated prior times the likelihood of the deviations of the healthy visits
 * from their mean. With one healthy visit the prior alone speaks; each further one sharpens it. This is the shrinkage:
 * two sizes are learnt, never a full covariance, which a handful of visits could not carry.
 *
 * Stretches are taken as independent here, which is a little too sure when one soil moves several bands.
 */
export function weighScatter(baseline: Baseline, shapes: ScatterShapes): WeightedScatter[] {
  const connectionMedian = Math.hypot(CONNECTION_MEDIAN, shotScatter(baseline, shapes.connection));
  const weighted: WeightedScatter[] = [];
  for (const soil of SOIL_SIZES) {
    for (const connection of CONNECTION_SIZES) {
      const size = { soil, connection };
      let logWeight = logPrior(soil, SOIL_MEDIAN) + logPrior(connection, connectionMedian);
      for (const span of baseline.spans) logWeight += logLikelihoodOfDeviations(span, shapes, size);
      weighted.push({ size, logWeight });
    }
  }
  return keepLikely(weighted);
}

/** Size of the error box in a visit's mean that the scatter of its shots alone explains, by moments. */
function shotScatter(baseline: Baseline, connection: readonly Columns[]): number {
  let [squares, degrees, power] = [0, 0, 0];
  for (const { from, to, shotsBefore, shotNoiseVariance } of baseline.spans) {
    for (const shots of shotsBefore) {
      const mean = meanOfShots(shots);
      for (const shot of shots) squares += squareOf(differenceOf(shot, mean), 0, to - from) / shots.length;
      degrees += (shots.length - 1) / shots.length;
      squares -= ((shots.length - 1) / shots.length) * 2 * (to - from) * shotNoiseVariance;
    }
    for (const shape of connection) power += squareOf(shape, from, to) / baseline.spans.length;
  }
  return degrees > 0 && squares > 0 ? Math.sqrt(squares / degrees / power / meanShots(baseline)) : 0;
}

function meanShots({ spans }: Baseline): number {
  const counts = spans.flatMap(({ shotsBefore }) => shotsBefore.map((shots) => shots.length));
  return counts.reduce((sum, count) => sum + count, 0) / counts.length;
}

function squareOf({ re, im }: Columns, from: number, to: number): number {
  let sum = 0;
  for (let i = from; i < to; i++) sum += (re[i] as number) ** 2 + (im[i] as number) ** 2;
  return sum;
}

/** Sizes of less than this share of the best one's weight change nothing. */
const NEGLIGIBLE = Math.log(0.01);

function keepLikely(weighted: readonly WeightedScatter[]): WeightedScatter[] {
  const best = Math.max(...weighted.map((entry) => entry.logWeight));
  return weighted.filter((entry) => entry.logWeight - best > NEGLIGIBLE);
}

function logPrior(size: number, median: number): number {
  return -0.5 * (Math.log(size / median) / SPREAD) ** 2;
}

function logLikelihoodOfDeviations(span: StretchSpan, shapes: ScatterShapes, size: ScatterSize): number {
  const n = span.deviations.length;
  if (n < 2) return 0;
  const factor = choleskyInPlace(visitCovariance(span, shapes, size), 2 * (span.to - span.from));
  let sum = 0;
  for (const deviation of span.deviations) {
    const white = whiten(factor, stacked(deviation));
    sum += dot(white, white);
  }
  return -0.5 * (sum + (n - 1) * factor.logDeterminant);
}

/** Covariance of one visit's mean over one stretch, row by row; only the lower triangle counts. */
export function visitCovariance(span: StretchSpan, shapes: ScatterShapes, size: ScatterSize): Float64Array {
  const bins = span.to - span.from;
  const matrix = new Float64Array(4 * bins * bins);
  const add = (shape: Columns, sd: number): void =>
    addOuter(
      matrix,
      stacked({ re: shape.re.subarray(span.from, span.to), im: shape.im.subarray(span.from, span.to) }),
      sd,
    );
  for (const shape of shapes.soil) add(shape, size.soil);
  for (const shape of shapes.connection) add(shape, size.connection);
  addDiagonal(matrix, 2 * bins, span.noiseVariance);
  return matrix;
}

/**
 * Covariance of the change between the two means over all bins. Soil moves all stretches together; the connection's
 * error is taken as independent from stretch to stretch.
 */
export function covarianceOfChange(baseline: Baseline, shapes: ScatterShapes, size: ScatterSize): Factor {
  const m = baseline.frequencyHz.length;
  const matrix = new Float64Array(4 * m * m);
  const weight = new Float64Array(m);
  for (const span of baseline.spans) {
    weight.fill(Math.sqrt(1 / span.visitsBefore + 1 / span.visitsAfter), span.from, span.to);
  }
  const weighted = (shape: Columns, from: number, to: number): Float64Array => {
    const column = new Float64Array(2 * m);
    for (let i = from; i < to; i++) {
      column[i] = (shape.re[i] as number) * (weight[i] as number);
      column[m + i] = (shape.im[i] as number) * (weight[i] as number);
    }
    return column;
  };
  for (const shape of shapes.soil) addOuter(matrix, weighted(shape, 0, m), size.soil);
  for (const span of baseline.spans) {
    for (const shape of shapes.connection) {
      addOuter(matrix, weighted(shape, span.from, span.to), size.connection);
    }
    for (let i = span.from; i < span.to; i++) {
      const noise = span.noiseVariance * (weight[i] as number) ** 2;
      matrix[i * (2 * m + 1)] = (matrix[i * (2 * m + 1)] as number) + noise;
      matrix[(m + i) * (2 * m + 1)] = (matrix[(m + i) * (2 * m + 1)] as number) + noise;
    }
  }
  return choleskyInPlace(matrix, 2 * m);
}

export function addDiagonal(matrix: Float64Array, size: number, variance: number): void {
  for (let i = 0; i < size * size; i += size + 1) matrix[i] = (matrix[i] as number) + variance;
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
