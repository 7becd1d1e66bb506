import { Matrix, solve } from 'ml-matrix';
import { monopoleImpedance } from '../ground/monopole.ts';
import type { FeedLine } from '../sweep/feed-line.ts';
import type { AntennaGuess } from './antenna-guess.ts';
import type { Baseline } from './baseline.ts';
import { type Columns, emptyColumns } from './columns.ts';
import { type FeedPath, reflectionThrough } from './feed-path.ts';
import type { GroundTable } from './ground-table.ts';
import type { Plane } from './plane.ts';

/** The guess moved to what the healthy sweeps show. */
export interface FittedAntenna {
  readonly heightM: number;
  readonly radiusM: number;
  readonly path: FeedPath;
  /** ln of the fitted conductivity over the guess's. */
  readonly logConductivityRatio: number;
  /** Root mean square of what the model leaves of Γ. */
  readonly misfit: number;
  readonly guess: AntennaGuess;
}

const HEIGHT = 0;
const RADIUS = 1;
const STRAP = 2;
const SHUNT = 3;
const SOIL = 4;
const LOSS = 5;
const LINE_IMPEDANCE = 6;
const LINE_DELAY = 7;
const LINE_LOSS = 8;

/** How far the model of a straight wire over even soil may be off in Γ; our own choice. */
const MODEL_TOLERANCE = 0.01;
const ITERATIONS = 12;
/** Nothing strays further than this many times its prior spread, nor the height to where the radiator's model ends. */
const MOST_SPREADS = 4;
const TALLEST_WAVELENGTHS = 0.6;
const LIGHT_M_PER_S = 299_792_458;

/**
 * Above this rms of Γ the model does not describe the healthy antenna: no strap and insulator are read out of it then,
 * and causes are told at the terminals. Our own choice.
 */
export const POOR_MISFIT = 0.04;

/**
 * Maximum a posteriori fit of height, thickness, strap inductance, insulator capacitance, soil and a constant loss to
 * the healthy mean curve. Priors: ln height as the guess says, ln thickness ±0.4, strap 0.2 ± 0.3 µH, insulator
 * 8 ± 12 pF (both at 10 MHz, in inverse proportion to frequency, not negative), ln σ ± 0.7, loss 0 ± 2 Ω; of a line
 * ln impedance and ln delay as the site has them ± 0.015, ln matched loss ± 0.15, since cables are made no better. What
 * it is for: a capacitance across the base, another soil or a line turn how a fault shows where it is measured. The
 * figures are not an answer about the antenna.
 */
export function fitAntenna(
  guess: AntennaGuess,
  ground: GroundTable,
  { frequencyHz, before: reflection, plane }: Baseline,
): FittedAntenna {
  // Straps and insulators of antennas for higher bands are smaller.
  const size = Math.min(1.5, 1e7 / (frequencyHz[0] as number));
  const ofLine = plane.line === null ? [] : [0.015, 0.015, 0.15];
  const spread = [guess.heightSpread, 0.4, 0.3 * size, 12 * size, 0.7, 2, ...ofLine];
  const centre = [
    Math.log(guess.heightM),
    Math.log(guess.radiusM),
    0.2 * size,
    8 * size,
    0,
    0,
    ...ofLine.map(() => 0),
  ];
  const residual = (p: readonly number[]): Float64Array => {
    const model = modelReflection(p, ground, frequencyHz, plane);
    const m = frequencyHz.length;
    // As many independent points as a smooth curve has, so that the priors keep their say.
    const scale = Math.sqrt(Math.min(1, 8 / m)) / MODEL_TOLERANCE;
    const rows = new Float64Array(2 * m + p.length);
    for (let i = 0; i < m; i++) {
      rows[i] = scale * ((reflection.re[i] as number) - (model.re[i] as number));
      rows[m + i] = scale * ((reflection.im[i] as number) - (model.im[i] as number));
    }
    p.forEach((x, k) => {
      rows[2 * m + k] = ((centre[k] as number) - x) / (spread[k] as number);
    });
    return rows;
  };
  const lowest = centre.map((x, k) =>
    k === STRAP || k === SHUNT ? 0 : x - MOST_SPREADS * (spread[k] as number),
  );
  const highest = centre.map((x, k) => x + MOST_SPREADS * (spread[k] as number));
  const tallestM = (TALLEST_WAVELENGTHS * LIGHT_M_PER_S) / Math.max(...frequencyHz);
  highest[HEIGHT] = Math.min(highest[HEIGHT] as number, Math.log(tallestM));
  const p = descend(residual, centre, spread, [lowest, highest]);
  const model = modelReflection(p, ground, frequencyHz, plane);
  let squares = 0;
  for (let i = 0; i < frequencyHz.length; i++) {
    squares += ((reflection.re[i] as number) - (model.re[i] as number)) ** 2;
    squares += ((reflection.im[i] as number) - (model.im[i] as number)) ** 2;
  }
  const misfit = Math.sqrt(squares / frequencyHz.length);
  if (misfit > POOR_MISFIT) {
    const { heightM, radiusM } = guess;
    const path = { strapH: 0, shuntF: 0, line: plane.line };
    return { heightM, radiusM, path, logConductivityRatio: 0, misfit, guess };
  }
  return {
    heightM: Math.exp(p[HEIGHT] as number),
    radiusM: Math.exp(p[RADIUS] as number),
    path: pathOf(p, plane.line),
    logConductivityRatio: p[SOIL] as number,
    misfit,
    guess,
  };
}

/** Base impedance of the radiator alone over perfect ground, Ω; the caller keeps clear of a half wave. */
export function radiatorImpedance(heightM: number, radiusM: number, frequencyHz: Float64Array): Columns {
  const columns = emptyColumns(frequencyHz.length);
  for (let i = 0; i < frequencyHz.length; i++) {
    const { atBaseOhm, atLoopOhm } = monopoleImpedance({ heightM, radiusM }, frequencyHz[i] as number);
    columns.re[i] = (atBaseOhm ?? atLoopOhm).re;
    columns.im[i] = (atBaseOhm ?? atLoopOhm).im;
  }
  return columns;
}

function pathOf(p: readonly number[], line: FeedLine | null): FeedPath {
  const factor = (index: number): number => Math.exp(p[index] as number);
  return {
    strapH: (p[STRAP] as number) * 1e-6,
    shuntF: (p[SHUNT] as number) * 1e-12,
    line: line && {
      lengthM: line.lengthM,
      impedanceOhm: line.impedanceOhm * factor(LINE_IMPEDANCE),
      velocityFactor: line.velocityFactor / factor(LINE_DELAY),
      conductorLossDb: line.conductorLossDb * factor(LINE_LOSS),
      dielectricLossDb: line.dielectricLossDb * factor(LINE_LOSS),
    },
  };
}

function modelReflection(
  p: readonly number[],
  ground: GroundTable,
  frequencyHz: Float64Array,
  plane: Plane,
): Columns {
  const inner = radiatorImpedance(Math.exp(p[HEIGHT] as number), Math.exp(p[RADIUS] as number), frequencyHz);
  const soil = ground.ofSoil(p[SOIL] as number);
  for (let i = 0; i < frequencyHz.length; i++) {
    inner.re[i] = (inner.re[i] as number) + (soil.re[i] as number) + (p[LOSS] as number);
    inner.im[i] = (inner.im[i] as number) + (soil.im[i] as number);
  }
  return reflectionThrough(inner, frequencyHz, pathOf(p, plane.line), plane);
}

/** Levenberg's damped Gauss–Newton with the priors as further rows, within bounds. */
function descend(
  residual: (p: readonly number[]) => Float64Array,
  start: readonly number[],
  scale: readonly number[],
  [lowest, highest]: readonly [readonly number[], readonly number[]],
): number[] {
  let p = [...start];
  let rows = residual(p);
  let cost = sumOfSquares(rows);
  let damping = 1e-2;
  for (let iteration = 0; iteration < ITERATIONS; iteration++) {
    const jacobian = new Matrix(rows.length, p.length);
    p.forEach((x, k) => {
      const step = 1e-4 * (scale[k] as number);
      const moved = residual(p.map((y, j) => (j === k ? x + step : y)));
      for (let i = 0; i < rows.length; i++) {
        jacobian.set(i, k, (((moved[i] as number) - (rows[i] as number)) / step) * (scale[k] as number));
      }
    });
    const normal = jacobian.transpose().mmul(jacobian);
    for (let k = 0; k < p.length; k++) normal.set(k, k, normal.get(k, k) * (1 + damping));
    const step = solve(normal, jacobian.transpose().mmul(Matrix.columnVector(Array.from(rows))));
    const next = p.map((x, k) => {
      const moved = x - step.get(k, 0) * (scale[k] as number);
      return Math.min(highest[k] as number, Math.max(lowest[k] as number, moved));
    });
    const nextRows = residual(next);
    const nextCost = sumOfSquares(nextRows);
    if (nextCost < cost) {
      const gained = cost - nextCost;
      [p, rows, cost, damping] = [next, nextRows, nextCost, damping / 5];
      if (gained < 1e-3) break;
    } else {
      damping *= 8;
      if (damping > 1e6) break;
    }
  }
  return p;
}

function sumOfSquares(rows: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < rows.length; i++) sum += (rows[i] as number) ** 2;
  return sum;
}
