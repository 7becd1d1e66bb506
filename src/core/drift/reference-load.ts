import type { MeasuredVisit } from '../record.ts';
import { type Baseline, baselineOf } from './baseline.ts';
import { dot, whiten } from './cholesky.ts';
import { differenceOf, stacked } from './columns.ts';
import { connectionShapes } from './connection-shapes.ts';
import { observe } from './observation.ts';
import { covarianceOfChange } from './scatter.ts';

/** What the sweeps of the reference load say. */
export interface ReferenceLoad {
  /** Mean over all bins of |Γ| after less |Γ| before. */
  readonly changeOfSize: number;
  /** Its standard uncertainty for the stated size of ordinary scatter. */
  readonly standardUncertainty: number;
  /** Root mean square of the change of Γ itself. */
  readonly change: number;
  /** ln likelihood of the change when the error box moves by this size, in |Γ|. */
  logLikelihood(size: number): number;
}

/** @returns null unless both groups hold sweeps of the load */
export function referenceLoad(
  before: readonly MeasuredVisit[],
  after: readonly MeasuredVisit[],
  ordinarySize: number,
): ReferenceLoad | null {
  if (before.length === 0 || after.length === 0) return null;
  const baseline = baselineOf(observe(before, after));
  const shapes = { soil: [], connection: connectionShapes(baseline.before, baseline.position) };
  const change = differenceOf(baseline.after, baseline.before);
  const data = stacked(change);
  return {
    changeOfSize: meanSize(baseline, 'after') - meanSize(baseline, 'before'),
    standardUncertainty: Math.SQRT2 * ordinarySize,
    change: Math.sqrt(dot(data, data) / change.re.length),
    logLikelihood(size) {
      const factor = covarianceOfChange(baseline, shapes, { soil: 0, connection: size });
      const white = whiten(factor, data);
      return -0.5 * (dot(white, white) + factor.logDeterminant);
    },
  };
}

function meanSize(baseline: Baseline, when: 'before' | 'after'): number {
  const { re, im } = baseline[when];
  let sum = 0;
  for (let i = 0; i < re.length; i++) sum += Math.hypot(re[i] as number, im[i] as number);
  return sum / re.length;
}
