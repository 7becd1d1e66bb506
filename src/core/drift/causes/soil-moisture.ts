import type { AntennaState } from '../antenna-state.ts';
import type { CauseModel } from '../cause.ts';
import { type Columns, differenceOf } from '../columns.ts';
import { logSignedDensity } from '../size-prior.ts';

/** Prior of |ln of the conductivity ratio|: log-normal, 0.5 within a factor 2.2 (a season doubles or halves it). */
const MEDIAN = 0.5;
const SPREAD = Math.log(2.2);
/** How far ln εr may stray from following ln σ: a constant part and a part of the change. */
const STRAY = 0.02;
const STRAY_SHARE = 0.15;

const AMPLITUDES = Float64Array.of(
  ...[-2.4, -2, -1.7, -1.4, -1.15, -0.95, -0.75, -0.6, -0.45, -0.33, -0.22, -0.14, -0.07, 0],
  ...[0.07, 0.14, 0.22, 0.33, 0.45, 0.6, 0.75, 0.95, 1.15, 1.4, 1.7, 2, 2.4],
);

/**
 * Conductivity times a ratio, permittivity following as moisture has it; the amplitude is ln of the ratio. The base
 * impedance changes by the ground's part of the surface-impedance method.
 */
export function soilMoisture(state: AntennaState): CauseModel {
  return {
    cause: 'soil-moisture',
    estimate: { name: 'ratio of soil conductivity', unit: '1' },
    amplitudes: AMPLITUDES,
    discrete: false,
    logPrior: (logRatio) => logSignedDensity(logRatio, MEDIAN, SPREAD),
    effect(logRatio) {
      const added = soilChange(state, logRatio);
      const shift = state.changeFor(added);
      const stray = permittivityChange(state, STRAY + STRAY_SHARE * Math.abs(logRatio));
      return { shift, free: [differenceOf(state.changeFor(plus(added, stray)), shift)] };
    },
  };
}

/** The shapes of scatter from visit to visit: dΓ per unit of ln σ, and half a unit of straying permittivity. */
export function soilShapes(state: AntennaState): Columns[] {
  const step = 0.1;
  const perUnit = (change: Columns): Columns => ({
    re: change.re.map((x) => x / step),
    im: change.im.map((x) => x / step),
  });
  return [
    perUnit(state.changeFor(soilChange(state, step))),
    perUnit(state.changeFor(permittivityChange(state, step * SCATTER_STRAY))),
  ];
}

/** Straying permittivity from visit to visit, as a part of the scatter of ln σ. */
const SCATTER_STRAY = 0.3;

function soilChange(state: AntennaState, logRatio: number): Columns {
  const here = state.fitted.logConductivityRatio;
  return differenceOf(state.ground.ofSoil(here + logRatio), state.ground.ofSoil(here));
}

function permittivityChange(state: AntennaState, logRatio: number): Columns {
  return differenceOf(state.ground.ofPermittivity(logRatio), state.ground.ofPermittivity(0));
}

function plus(a: Columns, b: Columns): Columns {
  return { re: a.re.map((x, i) => x + (b.re[i] as number)), im: a.im.map((x, i) => x + (b.im[i] as number)) };
}
