import type { AntennaState } from '../antenna-state.ts';
import type { CauseModel } from '../cause.ts';
import { type Columns, emptyColumns, scaled } from '../columns.ts';
import type { ReferenceLoad } from '../reference-load.ts';

/** Prior: ln size even from 0.004 to 0.2 of |Γ|. */
const AMPLITUDES = Float64Array.from({ length: 12 }, (_, i) => 0.004 * 50 ** (i / 11));
const LOG_RANGE = Math.log(50);

/**
 * The instrument itself, its calibration or the adaptor: an error box that has moved by more than connectors do, so
 * that the reference load moves too. The amplitude is the size of the move in |Γ|; its direction is free.
 *
 * @param ordinarySize - likeliest scatter of the connection
 */
export function instrument(
  state: AntennaState,
  connection: readonly Columns[],
  load: ReferenceLoad | null,
  ordinarySize: number,
): CauseModel {
  const ordinary = load?.logLikelihood(ordinarySize) ?? 0;
  const model: CauseModel = {
    cause: 'instrument',
    estimate: { name: 'change of |Γ| of the reference load', unit: '1' },
    amplitudes: AMPLITUDES,
    discrete: false,
    logPrior: (size) => -Math.log(size * LOG_RANGE),
    effect: (size) => ({
      shift: emptyColumns(state.frequencyHz.length),
      free: connection.map((shape) => scaled(shape, size)),
    }),
  };
  return load === null
    ? model
    : { ...model, logOther: (size) => load.logLikelihood(Math.hypot(size, ordinarySize)) - ordinary };
}
