import type { AntennaState } from '../antenna-state.ts';
import type { CauseModel } from '../cause.ts';
import { differenceOf } from '../columns.ts';
import { logSignedDensity } from '../size-prior.ts';

/** Prior of the size: log-normal, 1 per cent within a factor 2.7; longer and shorter alike. */
const MEDIAN_PERCENT = 1;
const SPREAD = 1;

/** −15 to 15 per cent, closer together near 0. */
const AMPLITUDES = Float64Array.from({ length: 41 }, (_, i) => 0.1 * Math.sinh((i - 20) * 0.285));

/**
 * The radiator longer (+) or shorter (−) by a per cent of its height, as a stretched or slipped element is; ice, wet
 * leaves or a branch that touches load it and look longer. The reactance moves most.
 */
export function elementLength(state: AntennaState): CauseModel {
  const { heightM, radiusM } = state.fitted;
  const whole = state.radiator(heightM, radiusM);
  return {
    cause: 'element-length',
    estimate: { name: 'change of the element’s length', unit: '%' },
    amplitudes: AMPLITUDES,
    discrete: false,
    logPrior: (percent) => logSignedDensity(percent, MEDIAN_PERCENT, SPREAD),
    effect: (percent) => ({
      shift: state.changeFor(differenceOf(state.radiator(heightM * (1 + percent / 100), radiusM), whole)),
      free: [],
    }),
  };
}
