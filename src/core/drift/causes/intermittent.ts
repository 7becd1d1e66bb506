import type { AntennaState } from '../antenna-state.ts';
import type { Baseline } from '../baseline.ts';
import type { CauseModel } from '../cause.ts';
import { type Columns, emptyColumns, scaled } from '../columns.ts';
import type { ScatterShapes, WeightedScatter } from '../scatter.ts';
import { shotLikelihood } from '../shot-contrasts.ts';
import { logNormalDensity } from '../size-prior.ts';
import { jointEffect } from './series-joint.ts';

/** Prior of the swing: log-normal, 3 Ω within a factor 2.7. */
const MEDIAN_OHM = 3;
const SPREAD = 1;
/** Mean resistance of a swinging contact over its swing: 0.7 ± 0.5. */
const LEVEL = 0.7;
const LEVEL_SPREAD = 0.5;

const AMPLITUDES = Float64Array.from({ length: 15 }, (_, i) => 0.2 * 10 ** (i / 6));

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
  scatters: readonly WeightedScatter[],
  withinShare: number,
): CauseModel {
  const n = state.frequencyHz.length;
  const shots = Math.max(1, ...baseline.spans.map((span) => span.shotsOfAfter));
  const likelihood = shotLikelihood(baseline, shapes, scatters);
  const healthy = likelihood(null);
  const swingOf = (ohm: number): Columns =>
    state.changeFor({ re: new Float64Array(n).fill(ohm), im: new Float64Array(n) });
  return {
    cause: 'intermittent',
    estimate: { name: 'swing of the contact (standard deviation)', unit: 'ohm' },
    amplitudes: AMPLITUDES,
    discrete: false,
    logPrior: (ohm) => logNormalDensity(ohm, MEDIAN_OHM, SPREAD),
    logOther: (ohm) => likelihood({ perBin: swingOf(ohm), withinShare }) - healthy,
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
