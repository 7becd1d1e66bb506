import { diagnose } from '../core/drift/diagnosis.ts';
import { fieldStateAt } from '../core/layout/field-state.ts';
import type { MeasuredVisit, VisitRecord } from '../core/record.ts';
import { type Logbook, measuredVisit } from '../logbook/logbook.ts';

/** A cause counts from this probability on: below, it is one of several guesses. */
const LEADING = 0.2;
/** As many healthy visits as tell the usual scatter; more would only take longer. */
const MOST_BEFORE = 12;

/**
 * The causes that may stand behind what the given visits show, likeliest first: compared with the visits over the same
 * radials that the user named as baseline, or else with the first ones there.
 *
 * @param now - numbers of the visits of one round
 * @returns empty when there is nothing to compare with yet
 */
export async function leadingCauses(logbook: Logbook, now: readonly number[]): Promise<string[]> {
  const { visits, site, fieldStates } = logbook;
  const of = (numbers: (visit: VisitRecord) => boolean): VisitRecord[] =>
    visits.filter((visit) => numbers(visit) && visit.shots.some(({ target }) => target === 'antenna'));
  const after = of(({ visit }) => now.includes(visit));
  const [newest] = after;
  if (newest === undefined) return [];
  const state = fieldStateAt(fieldStates, newest.time);
  const earlier = of(
    ({ visit, time, baseline }) =>
      visit < Math.min(...now) && baseline !== false && fieldStateAt(fieldStates, time) === state,
  );
  const named = earlier.filter(({ baseline }) => baseline === true);
  const before = (named.length > 0 ? named : earlier).slice(0, MOST_BEFORE);
  if (before.length === 0) return [];
  const plane = newest.shots[0]?.plane ?? 'feedpoint';
  const load = (records: readonly VisitRecord[]): Promise<MeasuredVisit[]> =>
    Promise.all(records.map((record) => measuredVisit(logbook, record, { plane })));
  const [healthy, fresh] = [await load(before), await load(after)];
  const diagnosis = diagnose({
    before: healthy,
    after: fresh,
    referenceBefore: loads(healthy),
    referenceAfter: loads(fresh),
    site,
  });
  return diagnosis.causes.filter(({ probability }) => probability >= LEADING).map(({ cause }) => cause);
}

/** The sweeps of the reference load as visits of their own. */
function loads(visits: readonly MeasuredVisit[]): MeasuredVisit[] {
  return visits
    .filter(({ referenceLoad }) => referenceLoad.length > 0)
    .map((visit) => ({ ...visit, shots: visit.referenceLoad, referenceLoad: [] }));
}
