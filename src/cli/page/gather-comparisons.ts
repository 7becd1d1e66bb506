import { fieldStateAt } from '../../core/layout/field-state.ts';
import type { FieldState } from '../../core/record.ts';
import type { CompareAnswer, PageComparison, PageField, Part } from '../../formats/page-data.ts';
import type { Logbook } from '../../logbook/logbook.ts';
import type { Asker } from './ask.ts';

/** So many of the newest handfuls are held against the ones before them. */
const MOST_STEPS = 10;
const COMMAND = 'turfwire measure --port /dev/ttyACM0 --shots 3';

/** Each handful against the field before it, newest first, and then all of them together against the first. */
export async function gatherComparisons(
  asker: Asker,
  logbook: Logbook,
): Promise<Part<readonly PageComparison[]>> {
  const states = measuredFields(logbook);
  if (states.length < 2) return withoutData(await asker.ask(['compare'], COMMAND));
  const found: PageComparison[] = [];
  let failed: Part<CompareAnswer> | null = null;
  for (const [before, after] of pairs(states.length)) {
    const [then, now] = [states[before] as MeasuredField, states[after] as MeasuredField];
    const which = ['compare', '--before', then.visits.join(','), '--after', now.visits.join(',')];
    const answer = await asker.ask<CompareAnswer>(which, COMMAND);
    if (answer.missing !== null) failed = answer;
    else {
      found.push({ before: fieldOf(then), after: fieldOf(now), answer: answer.data });
    }
  }
  return found.length === 0 && failed !== null ? withoutData(failed) : { data: found, missing: null };
}

/** Indices of before and after. */
function pairs(count: number): [number, number][] {
  const steps: [number, number][] = [];
  for (let after = count - 1; after > 0 && steps.length < MOST_STEPS; after--) steps.push([after - 1, after]);
  return count > 2 ? [...steps, [0, count - 1]] : steps;
}

interface MeasuredField {
  readonly state: FieldState;
  /** Numbers of the visits that stand for it; of all where none does. */
  readonly visits: readonly number[];
}

/** The field states over which the antenna was measured, on whatever band. */
function measuredFields({ visits, fieldStates }: Logbook): MeasuredField[] {
  const ofAntenna = visits.filter(({ shots }) => shots.some(({ target }) => target === 'antenna'));
  return fieldStates.flatMap((state) => {
    const there = ofAntenna.filter(({ time }) => fieldStateAt(fieldStates, time) === state);
    const counting = there.filter(({ baseline }) => baseline !== false);
    const standing = counting.length === 0 ? there : counting;
    return standing.length === 0 ? [] : [{ state, visits: standing.map(({ visit }) => visit) }];
  });
}

function fieldOf({ state: { radials, wireM, since } }: MeasuredField): PageField {
  return { radials: radials.length, wireM, since };
}

function withoutData(part: Part<unknown>): Part<never> {
  return {
    data: null,
    missing: part.missing ?? { why: 'Two measured field states are needed.', command: COMMAND },
  };
}
