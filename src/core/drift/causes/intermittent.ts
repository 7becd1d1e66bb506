import type { AntennaState } from '../antenna-state.ts';
import type { Baseline } from '../baseline.ts';
import type { CauseModel } from '../cause.ts';
import { type Columns, emptyColumns, scaled } from '../columns.ts';
import type { ScatterShapes } from '../scatter.ts';
import { likelihoodOfVisits, shotLikelihood } from '../shot-contrasts.ts';
import { logNormalDensity } from '../size-prior.ts';
import { jointEffect, seriesJoint } from './series-joint.ts';

/** Prior of the swing: log-normal, 2 Ω within a factor 3.5, since shots against each other show small ones too. */
const MEDIAN_OHM = 2;
const SPREAD = Math.log(3.5);
/** Mean resistance of a swinging contact over its swing: 0.7 ± 0.5. */
const LEVEL = 0.7;
const LEVEL_SPREAD = 0.5;

const AMPLITUDES = Float64Array.from({ length: 19 }, (_, i) => 0.1 * 10 ** (i / 6));

/**
 * A contact in the common path that swings from shot to shot, or within a shot as the sweep goes on: a resistance
 * whose standard deviation over the shots is the amplitude.
 *
 * @param withinShare - 0 when it swings between shots only, 1 when it does so as much from bin to bin
 */
export function intermittent(
  state: AntennaState,
  baseline: Baseline,
  shapes: ScatterShapes,
  withinShare: number,
): CauseModel {
  const n = state.frequencyHz.length;
  const shots = Math.max(1, ...baseline.spans.map((span) => span.shotsOfAfter));
  const ofShots = shotLikelihood(baseline, shapes.connection);
  const ofVisits = likelihoodOfVisits(baseline, shapes);
  const healthy = ofShots(null);
  const swingOf = (ohm: number): Columns =>
    state.changeFor({ re: new Float64Array(n).fill(ohm), im: new Float64Array(n) });
  return {
    cause: 'intermittent',
    estimate: { name: 'swing of the contact (standard deviation)', unit: 'ohm' },
    amplitudes: AMPLITUDES,
    discrete: false,
    logPrior: (ohm) => logNormalDensity(ohm, MEDIAN_OHM, SPREAD),
    logOther: (ohm) => ofShots({ perBin: swingOf(ohm), withinShare }) - healthy,
    logAfter: (ohm, size) => ofVisits({ perBin: swingOf(ohm), withinShare }, size),
    effect(ohm) {
      const swing = swingOf(ohm);
      const level = jointEffect(state, LEVEL * ohm);
      const free = [scaled(swing, Math.hypot(LEVEL_SPREAD, 1 / Math.sqrt(shots))), ...level.free];
      for (let i = 0; withinShare > 0 && i < n; i++) {
        const bump = emptyColumns(n);
        bump.re[i] = ((swing.re[i] as number) * withinShare) / Math.sqrt(shots);
        bump.im[i] = ((swing.im[i] as number) * withinShare) / Math.sqrt(shots);
        free.push(bump);
      }
      return { shift: level.shift, free };
    },
  };
}

/** A contact that comes and goes from visit to visit, and holds still through each: while it is bad it is a joint in series. */
export function heldContact(state: AntennaState): CauseModel {
  return {
    ...seriesJoint(state, 1),
    cause: 'intermittent',
    estimate: { name: 'resistance of the contact', unit: 'ohm' },
  };
}
