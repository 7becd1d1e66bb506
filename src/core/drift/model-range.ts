import type { MeasuredVisit } from '../record.ts';
import type { Sweep } from '../sweep/sweep.ts';
import { partOf } from './split-at-gaps.ts';

/** Heights in wavelengths between which the base impedance of the model is to be trusted. */
export const LOWEST_WAVELENGTHS = 0.02;
/** The upper end; see {@link LOWEST_WAVELENGTHS}. */
export const HIGHEST_WAVELENGTHS = 0.4;

const LIGHT_M_PER_S = 299_792_458;
const FEWEST_POINTS = 8;

/**
 * The part of each sweep in which a radiator of this height is neither too short nor near a half wave; what lies outside
 * says something too, but no model here can read it.
 *
 * @returns visits without their sweeps that lie outside; null when nothing is left
 */
export function withinModelRange(visits: readonly MeasuredVisit[], heightM: number): MeasuredVisit[] | null {
  const unitHz = LIGHT_M_PER_S / heightM;
  const cut = visits.map((visit) => ({
    ...visit,
    shots: visit.shots
      .map((shot) => cutSweep(shot, LOWEST_WAVELENGTHS * unitHz, HIGHEST_WAVELENGTHS * unitHz))
      .filter((shot) => shot !== null),
  }));
  return cut.some((visit) => visit.shots.length > 0) ? cut : null;
}

function cutSweep(sweep: Sweep, fromHz: number, toHz: number): Sweep | null {
  const { frequencyHz } = sweep;
  let from = 0;
  let to = frequencyHz.length;
  while (from < to && (frequencyHz[from] as number) < fromHz) from++;
  while (to > from && (frequencyHz[to - 1] as number) > toHz) to--;
  if (from === 0 && to === frequencyHz.length) return sweep;
  return to - from < FEWEST_POINTS ? null : partOf(sweep, from, to);
}
