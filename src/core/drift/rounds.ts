import type { VisitRecord } from '../record.ts';
import type { Band } from '../sweep/bands.ts';
import { visitsInBand } from '../visits-in-band.ts';

/**
 * Visits made one after the other, each of them for bands that the others lack: together they show one state of the
 * antenna.
 */
export interface Round {
  /** Rising in time, at least one. */
  readonly visits: readonly VisitRecord[];
  /** The visit that holds each of the bands, with its shots of that band alone; null where none does. */
  readonly ofBand: readonly (VisitRecord | null)[];
  /** ISO 8601 with zone, of the first visit. */
  readonly time: string;
  /** The user's word on whether it may serve as baseline: `no` for one of its visits outweighs `yes`. */
  readonly baseline: boolean | null;
}

/** Bands measured within this time belong together. */
const LONGEST_MS = 3_600_000;

/**
 * Puts the visits of a logbook together to rounds.
 *
 * @param visits - in any order; those that hold none of the bands are left out
 * @returns rising in time
 */
export function roundsOf(visits: readonly VisitRecord[], bands: readonly Band[]): Round[] {
  const ofBand = bands.map(
    (band) => new Map(visitsInBand(visits, band).map((visit) => [visit.visit, visit])),
  );
  const timed = visits
    .map((visit) => ({ visit, at: Date.parse(visit.time), held: ofBand.map((own) => own.get(visit.visit)) }))
    .sort((a, b) => a.at - b.at || a.visit.visit - b.visit.visit);
  const rounds: { startedAt: number; visits: VisitRecord[]; held: (VisitRecord | undefined)[] }[] = [];
  for (const { visit, at, held } of timed) {
    if (held.every((own) => own === undefined)) continue;
    const open = rounds.at(-1);
    const joins =
      open !== undefined &&
      at - open.startedAt < LONGEST_MS &&
      held.every((own, i) => own === undefined || open.held[i] === undefined);
    if (!joins) rounds.push({ startedAt: at, visits: [visit], held });
    else {
      open.visits.push(visit);
      open.held = open.held.map((own, i) => own ?? held[i]);
    }
  }
  return rounds.map(({ visits: own, held }) => ({
    visits: own,
    ofBand: held.map((visit) => visit ?? null),
    time: (own[0] as VisitRecord).time,
    baseline: wordOn(own),
  }));
}

function wordOn(visits: readonly VisitRecord[]): boolean | null {
  if (visits.some(({ baseline }) => baseline === false)) return false;
  return visits.some(({ baseline }) => baseline === true) ? true : null;
}
