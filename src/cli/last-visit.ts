import { resonanceFor } from '../core/proof/figures.ts';
import type { MeasuredVisit, ReferencePlane } from '../core/record.ts';
import type { Band } from '../core/sweep/bands.ts';
import { averageShots } from '../core/sweep/repeats.ts';
import { bestSwr, dipAround, swrDips } from '../core/sweep/swr-summary.ts';
import { visitsInBand } from '../core/visits-in-band.ts';
import type { Range } from '../instrument/sweep-plan.ts';
import { type Logbook, measuredVisit } from '../logbook/logbook.ts';

/**
 * The newest visit whose antenna shots, taken at a plane, cover a band.
 * @param before - only visits with a lower number
 * @returns null when there is none
 */
export async function lastVisit(
  logbook: Logbook,
  band: Band,
  plane: ReferencePlane,
  before: number = Number.POSITIVE_INFINITY,
): Promise<MeasuredVisit | null> {
  const record = visitsInBand(logbook.visits, band).findLast(
    ({ visit, shots }) =>
      visit < before && shots.every((shot) => shot.target !== 'antenna' || shot.plane === plane),
  );
  return record === undefined ? null : await measuredVisit(logbook, record, { plane });
}

/** The frequencies that all antenna shots of a visit span. */
export function sweptIn(visit: MeasuredVisit | null): Range | null {
  const [first] = visit?.shots ?? [];
  if (visit === null || first === undefined) return null;
  const ends = visit.shots.map(({ frequencyHz }) => [frequencyHz[0], frequencyHz.at(-1)] as [number, number]);
  return {
    fromHz: Math.min(...ends.map(([fromHz]) => fromHz)),
    toHz: Math.max(...ends.map(([, toHz]) => toHz)),
  };
}

/** What a visit showed and the next one has to hold: the stretch of SWR 2 or less, as far as it was seen, and X = 0. */
export function shownIn(visit: MeasuredVisit | null, band: Band): Range | null {
  if (visit === null || visit.shots.length === 0) return null;
  const { mean } = averageShots(visit.shots);
  const { frequencyHz } = bestSwr(mean);
  const dip = frequencyHz === null ? null : dipAround(swrDips(mean, 2), frequencyHz);
  const shown = [dip?.fromHz, dip?.toHz, resonanceOf(visit, band)].filter((hz) => typeof hz === 'number');
  return shown.length === 0 ? null : { fromHz: Math.min(...shown), toHz: Math.max(...shown) };
}

/** Where X was zero in a visit; null when it never was near the band. */
export function resonanceOf(visit: MeasuredVisit | null, band: Band): number | null {
  if (visit === null || visit.shots.length === 0) return null;
  return resonanceFor(averageShots(visit.shots).mean, band)?.frequencyHz ?? null;
}
