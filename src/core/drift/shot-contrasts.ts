import { type Baseline, meanOfShots, type StretchSpan } from './baseline.ts';
import { choleskyInPlace, dot, whiten } from './cholesky.ts';
import { type Columns, differenceOf, stacked } from './columns.ts';
import { logSum } from './evidence.ts';
import type { VisitBins } from './observation.ts';
import {
  addDiagonal,
  addOuter,
  type ScatterShapes,
  visitCovariance,
  type WeightedScatter,
} from './scatter.ts';

/** Sizes of the error box from shot to shot, in |Γ|: log-normal prior around the typical one within a factor 3. */
const SHOT_SIZES = Array.from({ length: 9 }, (_, i) => 0.0001 * 1.65 ** i);
const TYPICAL_SHOT = 0.0005;
/** The noise of the shots after over that of the ones before, with prior weights: a noisier band is no bad contact. */
const NOISE_FACTORS: readonly (readonly [factor: number, weight: number])[] = [
  [1, 0.9],
  [2, 0.07],
  [4, 0.03],
];

/** A swing of a contact as seen in Γ, and how much of it also happens within a shot. */
export interface Swing {
  readonly perBin: Columns;
  readonly withinShare: number;
}

/**
 * How well the differences among the shots of a visit, and among the visits after, agree with a contact that swings, or with none: ln likelihood,
 * comparable among swings. The size of the ordinary error from shot to shot is learnt from the shots before and after
 * under each hypothesis in turn.
 */
export function shotLikelihood(
  baseline: Baseline,
  shapes: ScatterShapes,
  scatters: readonly WeightedScatter[],
): (swing: Swing | null) => number {
  const spans = baseline.spans.map((span) => prepareSpan(span, shapes.connection));
  return (swing) => {
    let sum = 0;
    for (const prepared of spans) {
      if (prepared.after.degrees > 0) sum += logLikelihoodOfSpan(prepared, swing);
      sum += logLikelihoodOfVisits(prepared.span, shapes, scatters, swing);
    }
    return sum;
  };
}

/** The visits after against each other, over the sizes of scatter that the healthy visits leave likely. */
function logLikelihoodOfVisits(
  span: StretchSpan,
  shapes: ScatterShapes,
  scatters: readonly WeightedScatter[],
  swing: Swing | null,
): number {
  const visits = span.deviationsAfter.length;
  if (visits < 2) return 0;
  const deviations = { vectors: span.deviationsAfter.map(stacked), degrees: visits - 1 };
  return logSum(
    scatters.map(({ size, logWeight }) => {
      const matrix = visitCovariance(span, shapes, size);
      if (swing !== null) addSwing(matrix, span, swing, visits / span.shotsOfAfter);
      return logWeight + logLikelihood(matrix, 2 * (span.to - span.from), deviations);
    }),
  );
}

interface PreparedSpan {
  readonly span: StretchSpan;
  readonly after: Contrasts;
  /** The ordinary covariances with their prior weight and the likelihood of the shots before. */
  readonly ordinary: readonly { readonly matrix: Float64Array; readonly logWeight: number }[];
}

interface Contrasts {
  readonly vectors: readonly Float64Array[];
  /** Vectors less one for each visit's mean. */
  readonly degrees: number;
}

function prepareSpan(span: StretchSpan, connection: readonly Columns[]): PreparedSpan {
  const size = 2 * (span.to - span.from);
  const shapes = connection.map((shape) => stackedSpan(shape, span));
  const before = contrastsOf(span.shotsBefore);
  const ordinary = SHOT_SIZES.flatMap((shotSize) => {
    const box = new Float64Array(size * size);
    for (const shape of shapes) addOuter(box, shape, shotSize);
    const prior = -0.5 * (Math.log(shotSize / TYPICAL_SHOT) / Math.log(3)) ** 2;
    const healthy = box.slice();
    addDiagonal(healthy, size, span.shotNoiseVariance);
    const learnt = prior + logLikelihood(healthy, size, before);
    return NOISE_FACTORS.map(([factor, weight]) => {
      const matrix = box.slice();
      addDiagonal(matrix, size, span.shotNoiseVariance * factor * factor);
      return { matrix, logWeight: learnt + Math.log(weight) };
    });
  });
  const best = Math.max(...ordinary.map((entry) => entry.logWeight));
  return {
    span,
    after: contrastsOf(span.shotsAfter),
    ordinary: ordinary.filter((entry) => entry.logWeight > best - 6),
  };
}

function logLikelihoodOfSpan({ span, after, ordinary }: PreparedSpan, swing: Swing | null): number {
  const size = 2 * (span.to - span.from);
  const added = new Float64Array(size * size);
  if (swing !== null) addSwing(added, span, swing, 1);
  return logSum(
    ordinary.map(({ matrix, logWeight }) => {
      const sum = matrix.map((x, i) => x + (added[i] as number));
      return logWeight + logLikelihood(sum, size, after);
    }),
  );
}

/** Adds the covariance of a swing, common to a shot and from bin to bin, times a share for means of shots. */
function addSwing(matrix: Float64Array, span: StretchSpan, swing: Swing, share: number): void {
  const bins = span.to - span.from;
  const size = 2 * bins;
  const all = stackedSpan(swing.perBin, span);
  addOuter(matrix, all, Math.sqrt(share));
  const square = share * swing.withinShare ** 2;
  for (let i = 0; i < bins; i++) {
    const [re, im] = [all[i] as number, all[bins + i] as number];
    addTo(matrix, i * size + i, square * re * re);
    addTo(matrix, (bins + i) * size + i, square * re * im);
    addTo(matrix, (bins + i) * size + bins + i, square * im * im);
  }
}

function logLikelihood(matrix: Float64Array, size: number, { vectors, degrees }: Contrasts): number {
  if (degrees === 0) return 0;
  const factor = choleskyInPlace(matrix, size);
  let squares = 0;
  for (const vector of vectors) {
    const white = whiten(factor, vector);
    squares += dot(white, white);
  }
  return -0.5 * (squares + degrees * factor.logDeterminant);
}

function contrastsOf(visits: readonly VisitBins[]): Contrasts {
  const vectors = visits.flatMap((shots) => {
    const mean = meanOfShots(shots);
    return shots.map((shot) => stacked(differenceOf(shot, mean)));
  });
  return { vectors, degrees: vectors.length - visits.length };
}

function stackedSpan(shape: Columns, { from, to }: StretchSpan): Float64Array {
  return stacked({ re: shape.re.subarray(from, to), im: shape.im.subarray(from, to) });
}

function addTo(matrix: Float64Array, index: number, value: number): void {
  matrix[index] = (matrix[index] as number) + value;
}
