import { type Baseline, meanOfShots, type StretchSpan } from './baseline.ts';
import { type Columns, differenceOf, stacked } from './columns.ts';
import { type ConnectionShapes, SLOPES } from './connection-shapes.ts';
import {
  addDiagonal,
  addOuter,
  addTo,
  type Contrasts,
  logLikelihoodOf,
  pick,
  sumOuter,
} from './covariance.ts';
import { logSum } from './evidence.ts';
import type { VisitBins } from './observation.ts';
import { folded, type ScatterShapes, type ScatterSize, visitCovariance } from './scatter.ts';

/** Sizes of the error box from shot to shot, in |Γ|: log-normal prior around the typical one within a factor 3. */
const SHOT_STEP = 1.65;
const SHOT_SIZES = Array.from({ length: 9 }, (_, i) => 0.0001 * SHOT_STEP ** i);
const TYPICAL_SHOT = 0.0005;
const SHOT_SPREAD = Math.log(3);
/** Nothing is mated anew between shots: their size since differs little from that of the healthy days. */
const SHOT_HABIT = Math.log(1.25);
/**
 * What is rough from bin to bin over the noise that third differences show: log-normal within a factor 1.3, since noise
 * may be correlated from point to point. Since the healthy days it may have changed by a factor 1.5: a noisier band, or
 * a noisier afternoon, is no bad contact.
 */
const NOISE_STEP = 1.25;
const NOISE_FACTORS = Array.from({ length: 12 }, (_, i) => 0.6 * NOISE_STEP ** i);
const NOISE_SPREAD = Math.log(1.3);
const NOISE_HABIT = Math.log(1.5);

/** A swing of a contact as seen in Γ, and how much of it also happens within a shot. */
export interface Swing {
  readonly perBin: Columns;
  readonly withinShare: number;
}

/**
 * How well the differences among the shots of a visit agree with a contact that swings, or with none: ln likelihood,
 * comparable among swings. The size of the ordinary error from shot to shot is learnt from the shots before and after
 * under each hypothesis in turn.
 */
export function shotLikelihood(
  { spans }: Baseline,
  connection: ConnectionShapes,
): (swing: Swing | null) => number {
  const prepared = spans
    .map((span) => prepareSpan(span, connection))
    .filter(({ after }) => after.degrees > 0);
  return (swing) => prepared.reduce((sum, span) => sum + logLikelihoodOfSpan(span, swing), 0);
}

/** ln likelihood of the visits after against each other under a scatter and a swing whose means they hold. */
export function likelihoodOfVisits(
  baseline: Baseline,
  shapes: ScatterShapes,
): (swing: Swing, size: ScatterSize) => number {
  const { deviationsAfter, spans } = baseline;
  const { bins, degrees, vectors } = deviationsAfter;
  if (degrees === 0) return () => 0;
  const covariance = visitCovariance(baseline, shapes, bins);
  const shots = Math.max(...spans.map((span) => span.shotsOfAfter));
  return (swing, size) => {
    const matrix = covariance(size);
    addSwing(matrix, pick(swing.perBin, bins), swing.withinShare, vectors.length / shots);
    return logLikelihoodOf(deviationsAfter, matrix, 2 * bins.length);
  };
}

interface PreparedSpan {
  readonly span: StretchSpan;
  readonly after: Contrasts;
  /** The ordinary covariances, weighed by their prior and the likelihood of the shots before. */
  readonly ordinary: readonly { readonly matrix: Float64Array; readonly logWeight: number }[];
}

function prepareSpan(span: StretchSpan, { level, slope }: ConnectionShapes): PreparedSpan {
  const bins = binsOf(span);
  const size = 2 * bins.length;
  const sumOf = (shapes: readonly Columns[]): Float64Array =>
    sumOuter(
      shapes.map((shape) => pick(shape, bins)),
      size,
    );
  const [ofLevel, ofSlope] = [sumOf(level), sumOf(slope)];
  const before = contrastsOf(span.shotsBefore);
  const covariance = (shotSize: number, sloping: number, factor: number): Float64Array => {
    const matrix = ofLevel.map(
      (x, i) => shotSize * shotSize * (x + sloping * sloping * (ofSlope[i] as number)),
    );
    addDiagonal(matrix, new Float64Array(bins.length).fill(span.shotNoiseVariance * factor * factor));
    return matrix;
  };
  const ordinary = SLOPES.flatMap((sloping) => {
    const healthy = NOISE_FACTORS.map((factor) =>
      SHOT_SIZES.map(
        (shotSize) =>
          -0.5 * (Math.log(shotSize / TYPICAL_SHOT) / SHOT_SPREAD) ** 2 -
          0.5 * (Math.log(factor) / NOISE_SPREAD) ** 2 +
          logLikelihoodOf(before, covariance(shotSize, sloping, factor), size),
      ),
    ).map((row) => folded(row, Math.log(SHOT_STEP), SHOT_HABIT));
    return SHOT_SIZES.flatMap((shotSize, i) => {
      const ofSize = healthy.map((row) => row[i] as number);
      const since = folded(ofSize, Math.log(NOISE_STEP), NOISE_HABIT);
      return NOISE_FACTORS.map((factor, k) => ({
        matrix: (): Float64Array => covariance(shotSize, sloping, factor),
        logWeight: since[k] as number,
      }));
    });
  });
  const best = Math.max(...ordinary.map(({ logWeight }) => logWeight));
  return {
    span,
    after: contrastsOf(span.shotsAfter),
    ordinary: ordinary
      .filter(({ logWeight }) => logWeight > best - 6)
      .map(({ matrix, logWeight }) => ({ matrix: matrix(), logWeight })),
  };
}

function logLikelihoodOfSpan({ span, after, ordinary }: PreparedSpan, swing: Swing | null): number {
  const size = 2 * (span.to - span.from);
  const added = new Float64Array(size * size);
  if (swing !== null) addSwing(added, pick(swing.perBin, binsOf(span)), swing.withinShare, 1);
  return logSum(
    ordinary.map(({ matrix, logWeight }) => {
      const sum = matrix.map((x, i) => x + (added[i] as number));
      return logWeight + logLikelihoodOf(after, sum, size);
    }),
  );
}

/** Adds the covariance of a swing, common to a shot and from bin to bin, times a share for means of shots. */
function addSwing(matrix: Float64Array, swing: Float64Array, withinShare: number, share: number): void {
  addOuter(matrix, swing, Math.sqrt(share));
  const [size, bins] = [swing.length, swing.length / 2];
  const square = share * withinShare ** 2;
  for (let i = 0; i < bins; i++) {
    const [re, im] = [swing[i] as number, swing[bins + i] as number];
    addTo(matrix, i * size + i, square * re * re);
    addTo(matrix, (bins + i) * size + i, square * re * im);
    addTo(matrix, (bins + i) * size + bins + i, square * im * im);
  }
}

function contrastsOf(visits: readonly VisitBins[]): Contrasts {
  const vectors = visits.flatMap((shots) => {
    const mean = meanOfShots(shots);
    return shots.map((shot) => stacked(differenceOf(shot, mean)));
  });
  return { vectors, degrees: vectors.length - visits.length };
}

function binsOf({ from, to }: StretchSpan): number[] {
  return Array.from({ length: to - from }, (_, i) => from + i);
}
