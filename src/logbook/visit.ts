import type { MeasuredVisit, ReferencePlane, ShotRecord, VisitRecord } from '../core/record.ts';
import { atPlane, feedLineOf } from '../core/sweep/feed-line.ts';
import type { Sweep } from '../core/sweep/sweep.ts';
import { UserError } from '../core/user-error.ts';
import { readInside } from './inside.ts';
import type { Logbook } from './open-logbook.ts';
import { storedSweep } from './sweep-file.ts';

/**
 * Loads one stored sweep, at the plane where it was measured.
 * @throws UserError `sweep-missing`, `sweep-changed`, `outside-logbook`
 */
export async function loadShot(logbook: Logbook, shot: ShotRecord): Promise<Sweep> {
  const bytes = await readInside(logbook.folder, shot.file);
  if (bytes === null) {
    throw new UserError(
      'sweep-missing',
      'the file is gone: bring it back from a copy, or import again what it came from',
      {
        kind: 'logbook',
        place: { file: shot.file },
      },
    );
  }
  return storedSweep(bytes, shot);
}

/** Hears of a stored sweep that is gone or changed, and is done without. */
export type OnLost = (error: UserError, shot: ShotRecord) => void;

/**
 * Loads a visit with its sweeps moved to one plane. Sweeps of the reference load stay where they were
 * taken: that load stands at the instrument, not behind the feed line.
 *
 * @param onLost - hears of each sweep that is gone or changed, which is then left out; without it such a one is thrown
 * @throws UserError as {@link loadShot}; `feedline-needed` when a sweep must be moved and the site knows no line
 */
export async function measuredVisit(
  logbook: Logbook,
  visit: VisitRecord,
  { plane, onLost }: { readonly plane: ReferencePlane; readonly onLost?: OnLost },
): Promise<MeasuredVisit> {
  const shots: Sweep[] = [];
  const referenceLoad: Sweep[] = [];
  for (const shot of visit.shots) {
    const sweep = await loadShot(logbook, shot).catch((error: unknown) => {
      if (onLost === undefined || !(error instanceof UserError)) throw error;
      onLost(error, shot);
      return null;
    });
    if (sweep === null) continue;
    if (shot.target === 'reference-load') referenceLoad.push(sweep);
    else shots.push(movedToPlane(logbook, visit, sweep, plane));
  }
  return { label: `visit ${visit.visit}`, time: visit.time, shots, referenceLoad };
}

/**
 * A sweep of a visit moved to a plane through the feed line of the site.
 * @throws UserError `feedline-needed` when the site knows no line
 */
export function movedToPlane(
  logbook: Logbook,
  { visit }: VisitRecord,
  sweep: Sweep,
  plane: ReferencePlane,
): Sweep {
  const { feedline } = logbook.site;
  if (sweep.plane === plane) return sweep;
  if (feedline !== null) return atPlane(sweep, feedLineOf(feedline), plane);
  throw new UserError(
    'feedline-needed',
    `visit ${visit} was measured at the ${sweep.plane}: to move it to the ${plane}, give the type and length of the line`,
    { place: { file: 'site.json', field: 'feedline' } },
  );
}
