import type { MeasuredVisit } from '../record.ts';
import { type Baseline, baselineOf } from './baseline.ts';
import { dot } from './cholesky.ts';
import { differenceOf, stacked } from './columns.ts';
import { observe } from './observation.ts';
import type { Plane } from './plane.ts';

/** What the sweeps of the reference load say. */
export interface ReferenceLoad {
  /** Mean over all bins of |Γ| after less |Γ| before. */
  readonly changeOfSize: number;
  /** Its standard uncertainty for the stated size of ordinary scatter. */
  readonly standardUncertainty: number;
  /** Root mean square of the change of Γ itself. */
  readonly change: number;
  /** What mating the connector does to it by itself, standard deviation of |Γ|. */
  readonly ordinary: number;
  /** ln likelihood of the change when the error box moves by this size, in |Γ|. */
  logLikelihood(size: number): number;
}

/**
 * How far mating one connector twice moves the reflection of a load, standard deviation of |Γ|, at least and at most
 * (common practice: connectors repeat to some −60 dB at best). What the antenna's visits scatter beyond it is the
 * garden's, and no load shows it.
 */
const LEAST_ORDINARY = 0.001;
const MOST_ORDINARY = 0.004;

/** Ways in which an error box moves over the swept range: level and slope, each with two parts. */
const COMPLEX_DIRECTIONS = 2;

/**
 * Judges the change of the load by its size alone, as Gaussian in a few directions: how the curve of a well-matched
 * load wiggles from visit to visit is too little known to be evidence, and its noise too small to be a yardstick.
 *
 * @param ordinarySize - likeliest scatter of the connection, from the antenna's visits
 * @returns null unless both groups hold sweeps of the load
 */
export function referenceLoad(
  before: readonly MeasuredVisit[],
  after: readonly MeasuredVisit[],
  ordinarySize: number,
  plane: Plane,
): ReferenceLoad | null {
  if (before.length === 0 || after.length === 0) return null;
  const baseline = baselineOf(observe(before, after, plane));
  const data = stacked(differenceOf(baseline.after, baseline.before));
  const change = Math.sqrt(dot(data, data) / (data.length / 2));
  const ordinary = Math.min(MOST_ORDINARY, Math.max(LEAST_ORDINARY, ordinarySize));
  return {
    ordinary,
    changeOfSize: meanSize(baseline, 'after') - meanSize(baseline, 'before'),
    standardUncertainty: Math.SQRT2 * ordinary,
    change,
    logLikelihood(size) {
      const square = 2 * size * size;
      return -COMPLEX_DIRECTIONS * (Math.log(square) + (change * change) / square);
    },
  };
}

function meanSize(baseline: Baseline, when: 'before' | 'after'): number {
  const { re, im } = baseline[when];
  let sum = 0;
  for (let i = 0; i < re.length; i++) sum += Math.hypot(re[i] as number, im[i] as number);
  return sum / re.length;
}
