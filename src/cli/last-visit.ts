import { resonanceFor } from '../core/proof/figures.ts';
import type { MeasuredVisit, ReferencePlane, VisitRecord } from '../core/record.ts';
import type { Band } from '../core/sweep/bands.ts';
import { averageShots } from '../core/sweep/repeats.ts';
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
  const covers = ({ visit, shots }: VisitRecord): boolean =>
    visit < before &&
    shots.some((shot) => shot.target === 'antenna' && shot.fromHz < band.toHz && shot.toHz > band.fromHz) &&
    shots.every((shot) => shot.target !== 'antenna' || shot.plane === plane);
  const record = logbook.visits.findLast(covers);
  return record === undefined ? null : await measuredVisit(logbook, record, { plane });
}

/** Where X was zero in a visit; null when it never was near the band. */
export function resonanceOf(visit: MeasuredVisit | null, band: Band): number | null {
  if (visit === null || visit.shots.length === 0) return null;
  return resonanceFor(averageShots(visit.shots).mean, band)?.frequencyHz ?? null;
}
