import { type Baseline, meanOfShots } from './baseline.ts';
import { choleskyInPlace, type Factor } from './cholesky.ts';
import { type Columns, differenceOf } from './columns.ts';
import { boxShapes, type ConnectionShapes, SLOPES } from './connection-shapes.ts';
import { addDiagonal, logLikelihoodOf, pick, sumOuter } from './covariance.ts';
import { logSum } from './evidence.ts';
import type { VisitDeviations } from './visit-deviations.ts';

/** How far apart two healthy visits of one site are. */
export interface ScatterSize {
  /** Standard deviation of ln σ of the soil from visit to visit. */
  readonly soil: number;
  /** Standard deviation in |Γ| of each part of the connector's and instrument's own error. */
  readonly connection: number;
  /** How much of it slopes across a stretch, see {@link SLOPES}. */
  readonly slope: number;
  /** What is rough from bin to bin over the instrument's own noise. */
  readonly noiseFactor: number;
}

/** One size of scatter with its weight. */
export interface WeightedScatter {
  readonly size: ScatterSize;
  /** ln of prior × likelihood of the deviations of the healthy visits, not normalised. */
  readonly logWeight: number;
  /** ln likelihood of the deviations of the visits after, if all that moves them is this scatter. */
  readonly logAfter: number;
}

/** The shapes that scatter takes, each at unit size over all bins. */
export interface ScatterShapes {
  /** dΓ for a change of ln σ by one, and what permittivity does apart from it. */
  readonly soil: readonly Columns[];
  readonly connection: ConnectionShapes;
}

/** Ladders over which the evidence is averaged, finer than what a few visits, or a day's habit, can tell apart. */
const SOIL_SIZES = Array.from({ length: 6 }, (_, i) => 0.012 * 1.8 ** i);
const CONNECTION_STEP = 1.7;
const CONNECTION_SIZES = Array.from({ length: 9 }, (_, i) => 0.0002 * CONNECTION_STEP ** i);
/** What is rough from bin to bin over the noise, with prior weights. */
const NOISE_FACTORS: readonly (readonly [factor: number, weight: number])[] = [
  [1, 0.75],
  [1.5, 0.18],
  [2.5, 0.07],
];

/** Slopes and noise with the prior weight of both. */
const KINDS = SLOPES.flatMap((slope) =>
  NOISE_FACTORS.map(([factor, weight]) => [slope, factor, weight / SLOPES.length] as const),
);

/**
 * Priors, log-normal within a factor 2.5: soil median 0.06 of ln σ; connection median 0.0012 of Γ, together with what
 * the repeats within the healthy visits leave in a visit's mean, so that one visit of unsteady shots is not taken for
 * a steady one.
 */
const SOIL_MEDIAN = 0.06;
const CONNECTION_MEDIAN = 0.0012;
const SPREAD = Math.log(2.5);

/**
 * How much the connection's scatter since may differ from that of the healthy days: log-normal within a factor 1.4. One
 * box has a dozen terms, so two visits would seem to tell the size well; yet how a connector is mated is the habit of a
 * day, and all dozen terms share it. Our own choice.
 */
const HABIT: number = Math.log(1.4);

/**
 * Every set of sizes with its weight: the stated prior times the likelihood of the deviations of the healthy visits
 * from their mean, spread by {@link HABIT}; and the likelihood of the deviations of the visits after. With one visit on
 * either side the prior alone speaks; each further one sharpens it. This is the shrinkage: four sizes are learnt, never
 * a full covariance, which a handful of visits could not carry.
 */
export function weighScatter(baseline: Baseline, shapes: ScatterShapes): WeightedScatter[] {
  const connectionMedian = Math.hypot(CONNECTION_MEDIAN, shotScatter(baseline, boxShapes(shapes.connection)));
  const likelihood = deviationsLikelihood(baseline, shapes, baseline.deviationsBefore);
  const weighted: WeightedScatter[] = [];
  for (const soil of SOIL_SIZES) {
    for (const [slope, noiseFactor, share] of KINDS) {
      const sizes = CONNECTION_SIZES.map((connection) => ({ soil, connection, slope, noiseFactor }));
      const prior = logPrior(soil, SOIL_MEDIAN) + Math.log(share);
      const healthy = sizes.map(
        (size) => prior + logPrior(size.connection, connectionMedian) + likelihood(size),
      );
      const since = folded(healthy, Math.log(CONNECTION_STEP), HABIT);
      sizes.forEach((size, i) => {
        weighted.push({ size, logWeight: since[i] as number, logAfter: 0 });
      });
    }
  }
  const after = deviationsLikelihood(baseline, shapes, baseline.deviationsAfter);
  return likely(likely(weighted).map((entry) => ({ ...entry, logAfter: after(entry.size) })));
}

/**
 * ln weights of an even ladder folded with a normal kernel.
 *
 * @param step - between rungs, in the unit of `spread`
 */
export function folded(logWeights: readonly number[], step: number, spread: number): number[] {
  const norm = Math.log(step / (spread * Math.sqrt(2 * Math.PI)));
  return logWeights.map((_, at) =>
    logSum(logWeights.map((logWeight, i) => logWeight + norm - 0.5 * (((i - at) * step) / spread) ** 2)),
  );
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

function likely(weighted: readonly WeightedScatter[]): WeightedScatter[] {
  const total = (entry: WeightedScatter): number => entry.logWeight + entry.logAfter;
  const best = Math.max(...weighted.map(total));
  return weighted.filter((entry) => total(entry) - best > NEGLIGIBLE);
}

function logPrior(size: number, median: number): number {
  return -0.5 * (Math.log(size / median) / SPREAD) ** 2;
}

function deviationsLikelihood(
  baseline: Baseline,
  shapes: ScatterShapes,
  deviations: VisitDeviations,
): (size: ScatterSize) => number {
  if (deviations.degrees === 0) return () => 0;
  const covariance = visitCovariance(baseline, shapes, deviations.bins);
  return (size) => logLikelihoodOf(deviations, covariance(size), 2 * deviations.bins.length);
}

/** Covariance of one visit's mean over some bins, row by row; only the lower triangle counts. */
export function visitCovariance(
  { noiseVariance }: Baseline,
  shapes: ScatterShapes,
  bins: readonly number[],
): (size: ScatterSize) => Float64Array {
  const noise = Float64Array.from(bins, (bin) => noiseVariance[bin] as number);
  return covarianceOf(
    shapes.soil.map((shape) => pick(shape, bins)),
    shapes.connection.level.map((shape) => pick(shape, bins)),
    shapes.connection.slope.map((shape) => pick(shape, bins)),
    noise,
  );
}

/** Covariance of the change between the two means over all bins, as its factor. */
export function covarianceOfChange(baseline: Baseline, shapes: ScatterShapes): (size: ScatterSize) => Factor {
  const { frequencyHz, spans, noiseVariance } = baseline;
  const bins = Array.from(frequencyHz, (_, i) => i);
  const weight = new Float64Array(bins.length);
  for (const { from, to, visitsBefore, visitsAfter } of spans) {
    weight.fill(Math.sqrt(1 / visitsBefore + 1 / visitsAfter), from, to);
  }
  const weighted = (shape: Columns): Float64Array =>
    pick(shape, bins).map((x, i) => x * (weight[i % bins.length] as number));
  const covariance = covarianceOf(
    shapes.soil.map(weighted),
    shapes.connection.level.map(weighted),
    shapes.connection.slope.map(weighted),
    noiseVariance.map((x, i) => x * (weight[i] as number) ** 2),
  );
  return (size) => choleskyInPlace(covariance(size), 2 * bins.length);
}

function covarianceOf(
  soil: readonly Float64Array[],
  level: readonly Float64Array[],
  slope: readonly Float64Array[],
  noise: Float64Array,
): (size: ScatterSize) => Float64Array {
  const rows = 2 * noise.length;
  const [ofSoil, ofLevel, ofSlope] = [sumOuter(soil, rows), sumOuter(level, rows), sumOuter(slope, rows)];
  return (size) => {
    const matrix = new Float64Array(rows * rows);
    const [a, b, c] = [size.soil ** 2, size.connection ** 2, (size.connection * size.slope) ** 2];
    for (let i = 0; i < matrix.length; i++) {
      matrix[i] = a * (ofSoil[i] as number) + b * (ofLevel[i] as number) + c * (ofSlope[i] as number);
    }
    addDiagonal(
      matrix,
      noise.map((variance) => variance * size.noiseFactor ** 2),
    );
    return matrix;
  };
}
