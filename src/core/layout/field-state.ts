import type { JournalEvent, LiftEvent, RadialEvent } from '../journal-event.ts';
import type { FieldState, Radial } from '../record.ts';
import type { Site } from '../site.ts';
import { UserError } from '../user-error.ts';

/** What a journal tells of the radials, from the first to the last. */
export interface FieldHistory {
  /** Rising in time; the first has `since: null` and no radials. */
  readonly states: readonly FieldState[];
  /** Radials of the newest plan that have not been laid yet. */
  readonly planned: readonly Radial[];
  /** Events that contradict the ones before them, in words; each was passed over. */
  readonly problems: readonly string[];
}

/** More wires than any field has; each state lists them all, so that nothing must let them grow without end. */
const MOST_RADIALS = 1000;

/**
 * Replays a journal: what lay where at any time. Events count in the order of their times, not of
 * their rows, so what is logged late falls into its place; those of one time make one new state.
 */
export function replayField(events: Iterable<JournalEvent>): FieldHistory {
  const lying = new Map<number, Radial>();
  const everLaid = new Set<number>();
  const problems: string[] = [];
  const states: FieldState[] = [{ since: null, radials: [], wireM: 0 }];
  const planned = new Map<number, Radial>();
  let plannedAt = '';
  let changing: string | null = null;

  for (const event of inOrderOfTime(events)) {
    const { time, number } = event;
    if (event.event === 'plan') {
      // The newest plan counts: it puts an end to what an older one left open.
      if (time !== plannedAt) planned.clear();
      plannedAt = time;
      planned.set(number, radialOf(event));
      continue;
    }
    if (event.event === 'lift' && !lying.has(number)) {
      problems.push(
        `${time}: radial ${number} was lifted, but ${everLaid.has(number) ? 'it had been lifted before' : 'was not laid before that'}`,
      );
      continue;
    }
    if (event.event === 'lay' && everLaid.has(number)) {
      problems.push(`${time}: radial ${number} was laid, but that number was laid before`);
      continue;
    }
    if (event.event === 'lay' && lying.size >= MOST_RADIALS) {
      problems.push(
        `${time}: radial ${number} was laid, but ${MOST_RADIALS} lie there, and no field has more`,
      );
      continue;
    }
    // What changes at one time makes one state, looked at when the next time comes.
    if (changing !== null && changing !== time) states.push(stateOf(changing, lying));
    changing = time;
    if (event.event === 'lift') lying.delete(number);
    else lying.set(number, radialOf(event));
    everLaid.add(number);
    planned.delete(number);
  }
  if (changing !== null) states.push(stateOf(changing, lying));
  return { states, planned: [...planned.values()], problems };
}

/**
 * The number that the next radial gets: one above every number ever laid or planned.
 * @param events - also those that were withdrawn: they may stand again
 */
export function nextRadialAfter(events: Iterable<JournalEvent>): number {
  let last = 0;
  for (const event of events) {
    if (event.event === 'lay' || event.event === 'plan') last = Math.max(last, event.number);
  }
  return last + 1;
}

/**
 * Refuses a change of the journal that brings a contradiction into it: a lift of what does not lie there, a
 * second laying under one number.
 * @throws UserError `field-contradiction`
 */
export function requireFieldConsistent(
  before: readonly JournalEvent[],
  after: readonly JournalEvent[],
): void {
  const known = new Set(replayField(before).problems);
  const found = replayField(after).problems.find((problem) => !known.has(problem));
  if (found !== undefined) throw new UserError('field-contradiction', found);
}

/** The state that held at a time. A change at that very time counts as done. */
export function fieldStateAt(states: readonly FieldState[], time: string): FieldState {
  const at = Date.parse(time);
  const found = states.findLast(({ since }) => since === null || Date.parse(since) <= at);
  return found ?? { since: null, radials: [], wireM: 0 };
}

/** The state a site file tells, for a field that no journal has followed; null when it tells none. */
export function fieldStateOfSite(site: Site): FieldState | null {
  const { count, lengthM } = site.radials ?? { count: null, lengthM: null };
  if (count === null || lengthM === null) return null;
  const radials = Array.from({ length: count }, (_, i) => ({
    number: i + 1,
    lengthM,
    bearingDeg: null,
    route: null,
    since: null,
  }));
  return { since: null, radials, wireM: count * lengthM };
}

function inOrderOfTime(events: Iterable<JournalEvent>): (RadialEvent | LiftEvent)[] {
  const ofField: { at: number; event: RadialEvent | LiftEvent }[] = [];
  for (const event of events) {
    if (event.event === 'lay' || event.event === 'plan' || event.event === 'lift') {
      ofField.push({ at: Date.parse(event.time), event });
    }
  }
  return ofField.sort((a, b) => a.at - b.at).map(({ event }) => event);
}

function radialOf({ number, lengthM, bearingDeg, route, time }: RadialEvent): Radial {
  return { number, lengthM, bearingDeg, route, since: time };
}

function stateOf(since: string, lying: ReadonlyMap<number, Radial>): FieldState {
  const radials = [...lying.values()].sort((a, b) => a.number - b.number);
  return { since, radials, wireM: radials.reduce((sum, { lengthM }) => sum + lengthM, 0) };
}
