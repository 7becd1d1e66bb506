import { fieldStateAt } from '../core/layout/field-state.ts';
import type { ComparedVisit } from '../core/proof/compared-visit.ts';
import { conditionsAt } from '../core/proof/conditions.ts';
import type { FieldState, ReferencePlane, VisitRecord } from '../core/record.ts';
import { type FeedLine, feedLineOf } from '../core/sweep/feed-line.ts';
import { type Logbook, measuredVisit } from '../logbook/logbook.ts';

/** One visit of a logbook with its sweeps, and the field it was made over. */
export interface LogbookVisit extends ComparedVisit {
  readonly time: string;
  readonly visit: number;
  readonly state: FieldState;
  /** False where the user said that it does not stand for the antenna as it should be (`note baseline N no`). */
  readonly counts: boolean;
}

/** A field state that was measured. */
export interface MeasuredState {
  readonly state: FieldState;
  /** Rising in time, at least one. */
  readonly visits: readonly LogbookVisit[];
}

/** The visits of a logbook by field state, all at one plane. */
export interface MeasuredLogbook {
  readonly states: readonly MeasuredState[];
  /** The line that was undone to bring sweeps to the feed point. */
  readonly line: FeedLine | null;
}

/**
 * Loads every visit of a logbook at the feed point; at the shack where all were measured there and the site knows
 * no feed line.
 *
 * @throws UserError `sweep-missing`, `sweep-changed`, `feedline-needed`
 */
export async function measuredLogbook(logbook: Logbook): Promise<MeasuredLogbook> {
  const { site, readings, fieldStates } = logbook;
  const planes = new Set(
    logbook.visits.flatMap(({ shots }) => antennaShots(shots).map(({ plane }) => plane)),
  );
  const plane: ReferencePlane = site.feedline === null && !planes.has('feedpoint') ? 'shack' : 'feedpoint';
  const byState = new Map<FieldState, LogbookVisit[]>();
  const inOrder = logbook.visits.toSorted((a, b) => Date.parse(a.time) - Date.parse(b.time));
  for (const record of inOrder) {
    if (antennaShots(record.shots).length === 0) continue;
    const measured = await measuredVisit(logbook, record, { plane });
    const state = fieldStateAt(fieldStates, record.time);
    const visits = byState.get(state) ?? [];
    const conditions = conditionsAt(readings, record.time);
    visits.push({
      ...measured,
      time: record.time,
      visit: record.visit,
      conditions,
      state,
      counts: record.baseline !== false,
    });
    byState.set(state, visits);
  }
  return {
    states: fieldStates.flatMap((state) => {
      const visits = byState.get(state);
      return visits === undefined ? [] : [{ state, visits }];
    }),
    line:
      plane === 'feedpoint' && planes.has('shack') && site.feedline !== null
        ? feedLineOf(site.feedline)
        : null,
  };
}

/** The visits that stand for a state; all of them where none does. */
export function countingVisits({ visits }: MeasuredState): LogbookVisit[] {
  const counting = visits.filter(({ counts }) => counts);
  return counting.length === 0 ? [...visits] : counting;
}

function antennaShots(shots: VisitRecord['shots']): VisitRecord['shots'] {
  return shots.filter(({ target }) => target === 'antenna');
}
