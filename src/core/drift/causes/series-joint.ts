import type { AntennaState } from '../antenna-state.ts';
import type { CauseEffect, CauseModel } from '../cause.ts';
import { type Columns, differenceOf } from '../columns.ts';
import { logNormalDensity } from '../size-prior.ts';

/** Prior of the resistance that a joint gains: log-normal, 3 Ω within a factor 3. */
const MEDIAN_OHM = 3;
const SPREAD = Math.log(3);
/** Prior of the film's ωRC at the middle frequency: 0.05 ± 0.15; below 0 where the current takes a longer way. */
const FILM_MEAN = 0.05;
const FILM_SPREAD = 0.15;
/** Prior of the inductance that a longer way of the current adds: 0 ± 3 nH, a few millimetres of strap. */
const DETOUR_H = 3e-9;
/** Prior of the power n of R ∝ f^n: 0 ± 0.25. */
const LAW_SPREAD = 0.25;

/**
 * Resistance R in the path that all current takes, perhaps with a film's capacitance C across it and a weak law of
 * frequency: ΔZ = R·(f/f0)^n/(1 + jωRC), the last two to first order. X = 0 hardly moves, R rises flat.
 *
 * @param sign - 1 for a joint that has gained resistance since the baseline, −1 for one that was mended
 */
export function seriesJoint(state: AntennaState, sign: 1 | -1): CauseModel {
  return {
    cause: 'series-joint',
    estimate: { name: 'added resistance of the common joint', unit: 'ohm' },
    amplitudes: sign > 0 ? AMPLITUDES : AMPLITUDES.map((ohm) => -ohm).reverse(),
    discrete: false,
    logPrior: (ohm) => logNormalDensity(sign * ohm, MEDIAN_OHM, SPREAD),
    effect: (ohm) => jointEffect(state, ohm),
  };
}

/** What a resistance in the common path does, with its film, its law of frequency and its detour left free. */
export function jointEffect(state: AntennaState, ohm: number): CauseEffect {
  const shift = state.changeFor(joint(state, ohm, FILM_MEAN, 0, 0));
  return {
    shift,
    free: [
      differenceOf(state.changeFor(joint(state, ohm, FILM_MEAN + FILM_SPREAD, 0, 0)), shift),
      differenceOf(state.changeFor(joint(state, ohm, FILM_MEAN, LAW_SPREAD, 0)), shift),
      differenceOf(state.changeFor(joint(state, ohm, FILM_MEAN, 0, DETOUR_H)), shift),
    ],
  };
}

/** Ohms from 0.1 to 100, closer together where they are small. */
const AMPLITUDES: Float64Array = Float64Array.from({ length: 28 }, (_, i) => 0.1 * 10 ** (i / 9));

/** Impedance of the joint over all bins; the film is told as ωRC at the middle frequency. */
function joint(state: AntennaState, ohm: number, film: number, law: number, detourH: number): Columns {
  const { frequencyHz, middleHz } = state;
  const n = frequencyHz.length;
  const added = { re: new Float64Array(n), im: new Float64Array(n) };
  for (let i = 0; i < n; i++) {
    const ratio = (frequencyHz[i] as number) / middleHz;
    const resistance = ohm * ratio ** law;
    const turn = film * ratio;
    added.re[i] = resistance / (1 + turn * turn);
    added.im[i] =
      2 * Math.PI * (frequencyHz[i] as number) * detourH - (resistance * turn) / (1 + turn * turn);
  }
  return added;
}
