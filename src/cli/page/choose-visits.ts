import { fieldStateAt } from '../../core/layout/field-state.ts';
import type { VisitRecord } from '../../core/record.ts';
import type { Logbook } from '../../logbook/logbook.ts';

/** A page holds the sweeps of so many visits; nobody tells more curves apart, and a phone must carry them. */
export const MOST_VISITS = 100;

/** The part of a page that the newest visits get, where not all have room. */
const NEWEST = 0.5;

/**
 * The visits whose sweeps go into a page: all of them, or the first and the last of every field state, those named as
 * baseline, the newest, and others evenly between.
 *
 * @returns rising in time, at most {@link MOST_VISITS}
 */
export function chooseVisits({
  visits,
  fieldStates,
}: Pick<Logbook, 'visits' | 'fieldStates'>): VisitRecord[] {
  const all = visits
    .filter(({ shots }) => shots.some(({ target }) => target === 'antenna'))
    .sort((a, b) => Date.parse(a.time) - Date.parse(b.time) || a.visit - b.visit);
  if (all.length <= MOST_VISITS) return all;
  const states = all.map(({ time }) => fieldStateAt(fieldStates, time));
  const isEnd = (i: number): boolean => states[i] !== states[i - 1] || states[i] !== states[i + 1];
  const rank = (i: number): number => {
    if (i === 0 || i === all.length - 1) return 0;
    if (isEnd(i)) return 1;
    if (all[i]?.baseline === true) return 2;
    return i >= all.length - NEWEST * MOST_VISITS ? 3 : 4;
  };
  const wanted = new Set(
    [0, 1, 2, 3]
      .flatMap((wantedRank) => all.flatMap((_, i) => (rank(i) === wantedRank ? [i] : [])))
      .slice(0, MOST_VISITS),
  );
  const others = all.flatMap((_, i) => (wanted.has(i) ? [] : [i]));
  const room = MOST_VISITS - wanted.size;
  for (let k = 0; k < room; k++) wanted.add(others[Math.floor(((k + 0.5) * others.length) / room)] as number);
  return all.filter((_, i) => wanted.has(i));
}
