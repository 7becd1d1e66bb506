import type { AntennaState } from '../antenna-state.ts';
import type { CauseModel } from '../cause.ts';
import { emptyColumns } from '../columns.ts';

/** Nothing beyond the scatter that the healthy visits show. */
export function noChange(state: AntennaState): CauseModel {
  const nothing = { shift: emptyColumns(state.frequencyHz.length), free: [] };
  return {
    cause: 'none',
    estimate: null,
    amplitudes: Float64Array.of(0),
    discrete: true,
    logPrior: () => 0,
    effect: () => nothing,
  };
}
