import { resonanceFor } from '../core/proof/figures.ts';
import type { MeasuredVisit, ReferencePlane } from '../core/record.ts';
import type { Band } from '../core/sweep/bands.ts';
import { averageShots } from '../core/sweep/repeats.ts';
import { visitsInBand } from '../core/visits-in-band.ts';
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

/** Where X was zero in a visit; null when it never was near the band. */
export function resonanceOf(visit: MeasuredVisit | null, band: Band): number | null {
  if (visit === null || visit.shots.length === 0) return null;
  return resonanceFor(averageShots(visit.shots).mean, band)?.frequencyHz ?? null;
}
