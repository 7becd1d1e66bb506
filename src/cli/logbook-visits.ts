import { fieldStateAt } from '../core/layout/field-state.ts';
import { isSameField } from '../core/layout/same-field.ts';
import type { ComparedVisit } from '../core/proof/compared-visit.ts';
import { conditionsAt } from '../core/proof/conditions.ts';
import type { FieldState, ReferencePlane, VisitRecord } from '../core/record.ts';
import type { Band } from '../core/sweep/bands.ts';
import { type FeedLine, feedLineOf } from '../core/sweep/feed-line.ts';
import { describePlace, type UserError } from '../core/user-error.ts';
import { visitsInBand } from '../core/visits-in-band.ts';
import { plural } from '../formats/words.ts';
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

/** The visits of a logbook that hold one band, by field state, all at one plane. */
export interface MeasuredInBand {
  readonly band: Band;
  readonly states: readonly MeasuredState[];
  /** The line that was undone to bring sweeps to the feed point. */
  readonly line: FeedLine | null;
  /** Stored sweeps that are gone or changed, and were done without. */
  readonly lost: readonly UserError[];
  /** Visits of the states that others of their state stand for. */
  readonly spared: number;
}

/**
 * Of a state with more visits than this so many are read, spread evenly over its time: means, scatter and soil are known
 * as well by them, and a year of hourly visits would take minutes. The newest two are always read.
 */
const MOST_OF_A_STATE = 240;

/**
 * Loads the visits of a logbook that hold a band, at the feed point; at the shack where all were measured there and the
 * site knows no feed line. A sweep that is gone or changed is left out and told of.
 *
 * @param asked - numbers of visits that are read however many there are
 * @throws UserError `feedline-needed`
 */
export async function measuredInBand(
  logbook: Logbook,
  band: Band,
  asked: readonly number[] = [],
): Promise<MeasuredInBand> {
  const { site, readings, fieldStates } = logbook;
  const all = visitsInBand(logbook.visits, band).sort((a, b) => Date.parse(a.time) - Date.parse(b.time));
  const records = spreadInStates(all, fieldStates, asked);
  const planes = new Set(all.flatMap(({ shots }) => antennaShots(shots).map(({ plane }) => plane)));
  const plane: ReferencePlane = site.feedline === null && !planes.has('feedpoint') ? 'shack' : 'feedpoint';
  const states: { readonly state: FieldState; readonly visits: LogbookVisit[] }[] = [];
  const lost: UserError[] = [];
  for (const record of records) {
    const { visit, time, baseline } = record;
    const measured = await measuredVisit(logbook, record, { plane, onLost: (error) => lost.push(error) });
    if (measured.shots.length === 0) continue;
    const state = fieldStateAt(fieldStates, time);
    const conditions = conditionsAt(readings, time);
    const own = { ...measured, visit, time, state, conditions, counts: baseline !== false };
    const last = states.at(-1);
    // What was laid and lifted again between two visits leaves the field that was.
    if (last !== undefined && isSameField(last.state, state)) last.visits.push(own);
    else states.push({ state, visits: [own] });
  }
  return {
    band,
    lost,
    states,
    spared: all.length - records.length,
    line:
      plane === 'feedpoint' && planes.has('shack') && site.feedline !== null
        ? feedLineOf(site.feedline)
        : null,
  };
}

/** At most {@link MOST_OF_A_STATE} of each run of visits over one field, and those asked for. */
function spreadInStates(
  records: readonly VisitRecord[],
  states: readonly FieldState[],
  asked: readonly number[],
): VisitRecord[] {
  const runs: VisitRecord[][] = [];
  let over: FieldState | null = null;
  for (const record of records) {
    const state = fieldStateAt(states, record.time);
    if (over !== null && isSameField(over, state)) runs.at(-1)?.push(record);
    else runs.push([record]);
    over = state;
  }
  return runs.flatMap((run) => {
    const step = (run.length - 1) / (MOST_OF_A_STATE - 1);
    if (step <= 1) return run;
    const kept = new Set(Array.from({ length: MOST_OF_A_STATE }, (_, i) => Math.round(i * step)));
    kept.add(run.length - 2);
    return run.filter(({ visit }, i) => kept.has(i) || asked.includes(visit));
  });
}

/** In words, that some visits stand for others. */
export function sparedNotes(spared: number): string[] {
  if (spared === 0) return [];
  return [
    `of states with more than ${MOST_OF_A_STATE} visits, ${MOST_OF_A_STATE} spread evenly over the time stand for all: ${plural(spared, 'visit')} not read`,
  ];
}

/** In words, what an answer did without. */
export function lostNotes(lost: readonly UserError[]): string[] {
  return lost.map(({ place, message }) => `${describePlace(place)}left out, because ${message}`);
}

/** The visits that stand for a state; all of them where none does. */
export function countingVisits({ visits }: MeasuredState): LogbookVisit[] {
  const counting = visits.filter(({ counts }) => counts);
  return counting.length === 0 ? [...visits] : counting;
}

function antennaShots(shots: VisitRecord['shots']): VisitRecord['shots'] {
  return shots.filter(({ target }) => target === 'antenna');
}
