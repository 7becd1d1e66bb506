import type { AntennaState } from '../antenna-state.ts';
import type { CauseEffect, CauseModel } from '../cause.ts';
import { type Columns, differenceOf } from '../columns.ts';
import { logNormalDensity } from '../size-prior.ts';

/** Prior of extra matched loss at the middle frequency: log-normal, 0.35 dB one way within a factor 2.7. */
const MEDIAN_DB = 0.35;
const SPREAD = 1;
/** Prior of extra one-way delay: 0 ± 0.6 ns (12 cm of solid cable), more where the loss is more. */
const DELAY_S = 0.6e-9;
const DELAY_S_PER_DB = 1.5e-9;
/** Prior of the power n of loss ∝ f^n: 0.6 ± 0.3 (0.5 for conductors, 1 for a wet dielectric). */
const LAW = 0.6;
const LAW_SPREAD = 0.3;

const AMPLITUDES = Float64Array.from({ length: 28 }, (_, i) => 0.012 * 10 ** (i / 10));

/**
 * A line between instrument and feed point that has become lossier and perhaps longer: Γ shrinks toward 0 and turns at
 * every frequency alike, Γ′ = Γ·10^(−A/10)·exp(−j4πfτ). It is the same at either end of a line, so it does not matter
 * at which plane the sweeps are told, as long as the line's impedance is their reference.
 */
export function feedline(state: AntennaState): CauseModel {
  return {
    cause: 'feedline',
    estimate: { name: 'extra loss of the feed line, one way', unit: 'dB' },
    amplitudes: AMPLITUDES,
    discrete: false,
    logPrior: (lossDb) => logNormalDensity(lossDb, MEDIAN_DB, SPREAD),
    effect: (lossDb) => effectOf(state, lossDb),
  };
}

function effectOf(state: AntennaState, lossDb: number): CauseEffect {
  const shift = lineChange(state, lossDb, LAW, 0);
  return {
    shift,
    free: [
      differenceOf(lineChange(state, lossDb, LAW, DELAY_S + DELAY_S_PER_DB * lossDb), shift),
      differenceOf(lineChange(state, lossDb, LAW + LAW_SPREAD, 0), shift),
    ],
  };
}

function lineChange(state: AntennaState, lossDb: number, law: number, delayS: number): Columns {
  const { frequencyHz, middleHz, reflection } = state;
  const n = frequencyHz.length;
  const change = { re: new Float64Array(n), im: new Float64Array(n) };
  for (let i = 0; i < n; i++) {
    const f = frequencyHz[i] as number;
    const size = 10 ** ((-lossDb * (f / middleHz) ** law) / 10);
    const turn = -4 * Math.PI * f * delayS;
    const [a, b] = [size * Math.cos(turn) - 1, size * Math.sin(turn)];
    const [re, im] = [reflection.re[i] as number, reflection.im[i] as number];
    change.re[i] = re * a - im * b;
    change.im[i] = re * b + im * a;
  }
  return change;
}
