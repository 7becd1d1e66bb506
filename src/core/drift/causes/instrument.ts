import type { AntennaState } from '../antenna-state.ts';
import type { CauseModel } from '../cause.ts';
import { type Columns, emptyColumns, scaled } from '../columns.ts';
import type { ReferenceLoad } from '../reference-load.ts';

/** Prior: ln size even from 0.004 to 0.2 of |Γ|. */
const AMPLITUDES = Float64Array.from({ length: 12 }, (_, i) => 0.004 * 50 ** (i / 11));
const LOG_RANGE = Math.log(50);

/**
 * The error box is one thing: with a load that moved so little, the antenna's curve cannot have been moved by more than
 * this many times as much. A load shows two directions of a box at least, and both seldom stay a fifth of the rest.
 */
const MOST_OF_LOAD = 5;

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
  const most =
    load === null ? Number.POSITIVE_INFINITY : MOST_OF_LOAD * Math.hypot(load.change, ordinarySize);
  const model: CauseModel = {
    cause: 'instrument',
    estimate: { name: 'change of |Γ| of the reference load', unit: '1' },
    amplitudes: AMPLITUDES,
    discrete: false,
    logPrior: (size) => (size > most ? Number.NEGATIVE_INFINITY : -Math.log(size * LOG_RANGE)),
    effect: (size) => ({
      shift: emptyColumns(state.frequencyHz.length),
      free: connection.map((shape) => scaled(shape, size)),
    }),
  };
  return load === null
    ? model
    : { ...model, logOther: (size) => load.logLikelihood(Math.hypot(size, ordinarySize)) - ordinary };
}
