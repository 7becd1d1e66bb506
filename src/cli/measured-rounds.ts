import type { Round } from '../core/drift/rounds.ts';
import type { MeasuredVisit, ShotRecord } from '../core/record.ts';
import { type Logbook, measuredVisit, type OnLost } from '../logbook/logbook.ts';
import { numbered } from './numbers.ts';

/**
 * Loads rounds at the feed point, each as one visit of all its bands.
 * @throws UserError `feedline-needed`
 */
export function measuredRounds(
  logbook: Logbook,
  rounds: readonly Round[],
  onLost: OnLost,
): Promise<MeasuredVisit[]> {
  return Promise.all(rounds.map((round) => measuredRound(logbook, round, onLost)));
}

async function measuredRound(
  logbook: Logbook,
  { visits, ofBand, time }: Round,
  onLost: OnLost,
): Promise<MeasuredVisit> {
  // A wide sweep belongs to several bands and is loaded once.
  const followed = new Set<ShotRecord>(ofBand.flatMap((visit) => visit?.shots ?? []));
  const parts = await Promise.all(
    visits.map((visit) =>
      measuredVisit(
        logbook,
        { ...visit, shots: visit.shots.filter((shot) => followed.has(shot)) },
        { plane: 'feedpoint', onLost },
      ),
    ),
  );
  return {
    label: numbered(
      'visit',
      visits.map(({ visit }) => visit),
    ),
    time,
    shots: parts.flatMap(({ shots }) => shots),
    referenceLoad: parts.flatMap(({ referenceLoad }) => referenceLoad),
  };
}

/** Sweeps of the reference load as visits of their own. */
export function referenceLoads(visits: readonly MeasuredVisit[]): MeasuredVisit[] {
  return visits
    .filter(({ referenceLoad }) => referenceLoad.length > 0)
    .map(({ label, time, referenceLoad }) => ({ label, time, shots: referenceLoad, referenceLoad: [] }));
}
