import { fieldStateAt } from '../../core/layout/field-state.ts';
import type { FieldState } from '../../core/record.ts';
import type { CompareAnswer, PageComparison, Part } from '../../formats/page-data.ts';
import type { Logbook } from '../../logbook/logbook.ts';
import type { Asker } from './ask.ts';

/** So many of the newest handfuls are held against the ones before them. */
const MOST_STEPS = 10;
const COMMAND = 'turfwire measure --port PORT   (or: turfwire import FILE…)';

/** Each handful against the field before it, newest first, and then all of them together against the first. */
export async function gatherComparisons(
  asker: Asker,
  logbook: Logbook,
): Promise<Part<readonly PageComparison[]>> {
  const states = measuredStates(logbook);
  if (states.length < 2) return withoutData(await asker.ask(['compare'], COMMAND));
  const found: PageComparison[] = [];
  let failed: Part<CompareAnswer> | null = null;
  for (const [before, after] of pairs(states.length)) {
    const which = ['compare', '--state', '--before', String(before + 1), '--after', String(after + 1)];
    const answer = await asker.ask<CompareAnswer>(which, COMMAND);
    if (answer.missing !== null) failed = answer;
    else {
      const field = (state: FieldState) => ({
        radials: state.radials.length,
        wireM: state.wireM,
        since: state.since,
      });
      found.push({
        before: field(states[before] as FieldState),
        after: field(states[after] as FieldState),
        answer: answer.data,
      });
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

/** The field states over which the antenna was measured, as `compare --state` counts them. */
function measuredStates({ visits, fieldStates }: Logbook): FieldState[] {
  const measured = new Set(
    visits
      .filter(({ shots }) => shots.some(({ target }) => target === 'antenna'))
      .map(({ time }) => fieldStateAt(fieldStates, time)),
  );
  return fieldStates.filter((state) => measured.has(state));
}

function withoutData(part: Part<unknown>): Part<never> {
  return {
    data: null,
    missing: part.missing ?? { why: 'Two measured field states are needed.', command: COMMAND },
  };
}
