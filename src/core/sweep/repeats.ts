import { UserError } from '../user-error.ts';
import { onGrid } from './on-grid.ts';
import { reflectionColumns, reflectionToImpedance } from './reflection.ts';
import { type AnySweep, createSweep, type Sweep } from './sweep.ts';

/** The shots of one visit as one sweep, with their spread. */
export interface AveragedShots {
  readonly mean: Sweep;
  readonly count: number;
  /** Sample standard deviation (n − 1) of Re Γ and Im Γ over the shots, length of `mean`; null for one shot. */
  readonly spread: { readonly re: Float64Array; readonly im: Float64Array } | null;
}

/**
 * Averages shots as reflection coefficients: the instrument's error lives there and is bounded there, while
 * ohms far from the reference would let one shot outweigh the rest. The common grid is the first shot's, cut to
 * what all shots cover; other grids are interpolated linearly in Γ.
 *
 * @param shots - one or more, at one plane
 * @throws UserError `shots-none`, `shots-planes-differ`, `shots-apart` when they share less than two points
 */
export function averageShots(shots: readonly Sweep[]): AveragedShots {
  const first = shots[0];
  if (first === undefined) throw new UserError('shots-none', 'needs at least one sweep to average, got none');
  if (shots.some((shot) => shot.plane !== first.plane)) {
    throw new UserError('shots-planes-differ', 'shots of one visit must be at one reference plane, got both');
  }
  if (shots.length === 1) return { mean: first, count: 1, spread: null };
  const frequencyHz = commonGrid(shots);
  const n = frequencyHz.length;
  const columns = shots.map((shot) => reflectionOnGrid(shot, first.referenceOhm, frequencyHz));
  const mean = { re: new Float64Array(n), im: new Float64Array(n) };
  const spread = { re: new Float64Array(n), im: new Float64Array(n) };
  const resistanceOhm = new Float64Array(n);
  const reactanceOhm = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    for (const part of ['re', 'im'] as const) {
      let sum = 0;
      for (const column of columns) sum += column[part][i] as number;
      const average = sum / shots.length;
      let squares = 0;
      for (const column of columns) squares += ((column[part][i] as number) - average) ** 2;
      mean[part][i] = average;
      spread[part][i] = Math.sqrt(squares / (shots.length - 1));
    }
    const reflection = { re: mean.re[i] as number, im: mean.im[i] as number };
    const impedance = reflectionToImpedance(reflection, first.referenceOhm);
    resistanceOhm[i] = impedance?.re ?? Number.NaN;
    reactanceOhm[i] = impedance?.im ?? Number.NaN;
  }
  const { referenceOhm, plane } = first;
  return {
    mean: createSweep({ frequencyHz, resistanceOhm, reactanceOhm, referenceOhm, plane }),
    count: shots.length,
    spread,
  };
}

/** The first shot's frequencies that every shot covers. */
export function commonGrid(shots: readonly AnySweep[]): Float64Array {
  let fromHz = Number.NEGATIVE_INFINITY;
  let toHz = Number.POSITIVE_INFINITY;
  for (const { frequencyHz } of shots) {
    fromHz = Math.max(fromHz, frequencyHz[0] as number);
    toHz = Math.min(toHz, frequencyHz[frequencyHz.length - 1] as number);
  }
  const grid = (shots[0] as AnySweep).frequencyHz.filter((f) => f >= fromHz && f <= toHz);
  if (grid.length < 2) {
    throw new UserError(
      'shots-apart',
      'the sweeps share less than two points of frequency: they cannot be averaged',
    );
  }
  return grid;
}

/**
 * Reflection of a sweep on other frequencies, linear in Γ between its points.
 * @param gridHz - rising, within the sweep
 */
export function reflectionOnGrid(
  sweep: Sweep,
  referenceOhm: number,
  gridHz: Float64Array,
): { re: Float64Array; im: Float64Array } {
  return onGrid({ frequencyHz: sweep.frequencyHz, ...reflectionColumns(sweep, referenceOhm) }, gridHz);
}
