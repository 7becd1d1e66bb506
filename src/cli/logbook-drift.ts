import type { CauseName } from '../core/drift/cause.ts';
import { type Conditions, conditionTeller } from '../core/drift/conditions.ts';
import { type Diagnosis, diagnose } from '../core/drift/diagnosis.ts';
import { noteEvidence } from '../core/drift/notes.ts';
import { type Watch, type WatchedVisit, watchVisits } from '../core/drift/watch.ts';
import type { FieldState, MeasuredVisit, VisitRecord } from '../core/record.ts';
import type { Site } from '../core/site.ts';
import { type FeedLine, feedLineOf } from '../core/sweep/feed-line.ts';
import { UserError } from '../core/user-error.ts';
import { driftFeatures } from '../logbook/drift-features.ts';
import { type Logbook, measuredVisit, openLogbook } from '../logbook/logbook.ts';

/** What a logbook says about drift: charts over time, and the causes of what is seen now. */
export interface LogbookDrift {
  readonly watch: Watch;
  readonly diagnosis: Diagnosis;
  /** Visits behind the diagnosis. */
  readonly before: readonly number[];
  readonly after: readonly number[];
}

export interface LogbookDriftOptions {
  /** Visits to be held against each other; found by the charts unless given. */
  readonly before?: readonly number[] | undefined;
  readonly after?: readonly number[] | undefined;
  readonly onProgress?: (done: number, of: number) => void;
}

/** Whole sweeps are loaded for so many visits; the rest are known by their figures. */
const MOST_BEFORE = 24;
const MOST_AFTER = 8;

/**
 * Diagnoses a logbook by its own baseline: the healthy visits of the current field state that are most like the changed
 * ones in moisture, temperature, rain and season.
 *
 * @throws UserError `visits-missing` for less than two visits, and those of `openLogbook`
 */
export async function diagnoseLogbook(
  folder: string,
  options: LogbookDriftOptions = {},
): Promise<LogbookDrift> {
  const logbook = await openLogbook(folder);
  const field = logbook.fieldStates.at(-1);
  const visits = visitsOfState(logbook, field);
  if (visits.length < 2) {
    throw new UserError(
      'visits-missing',
      `needs at least two visits since the field last changed, got ${visits.length}: measure the healthy antenna now, and again later`,
    );
  }
  const figures = await driftFeatures(logbook, visits, options.onProgress);
  const conditions = conditionTeller(logbook.readings);
  const watched = visits.map(
    ({ visit, time, baseline }, i): WatchedVisit => ({
      visit,
      time,
      baseline,
      features: figures[i]?.features as WatchedVisit['features'],
      curve: figures[i]?.curve ?? null,
      conditions: conditions(time),
    }),
  );
  const watch = watchVisits(watched);
  const after = (options.after ?? watch.changed).slice(-MOST_AFTER);
  const newest = watched.find(({ visit }) => visit === after.at(-1)) ?? watched.at(-1);
  const before =
    options.before ??
    mostAlike(
      watched.filter(({ visit }) => watch.healthy.includes(visit)),
      newest?.conditions,
    );
  const load = (numbers: readonly number[]): Promise<MeasuredVisit[]> =>
    Promise.all(
      numbers.map((number) => measuredVisit(logbook, findVisit(logbook, number), { plane: 'feedpoint' })),
    );
  const [measuredBefore, measuredAfter] = [await load(before), await load(after)];
  const lastHealthy = findVisit(logbook, Math.max(...before)).time;
  const diagnosis = diagnose({
    before: measuredBefore,
    after: measuredAfter,
    referenceBefore: referenceLoads(measuredBefore),
    referenceAfter: referenceLoads(measuredAfter),
    site: siteWithField(logbook.site, field),
    line: lineBefore(logbook, [...before, ...after]),
    notes: noteEvidence(logbook.readings.filter(({ time }) => Date.parse(time) >= Date.parse(lastHealthy))),
  });
  return { watch, diagnosis, before, after };
}

/** A cause below this is not worth acting on. */
const WORTH_NAMING = 0.2;

/** The likely causes of what a logbook shows now, likeliest first, for a command that acts when they change. */
export async function causesOfLogbook(folder: string): Promise<CauseName[]> {
  const { diagnosis } = await diagnoseLogbook(folder);
  return diagnosis.causes.filter(({ probability }) => probability >= WORTH_NAMING).map(({ cause }) => cause);
}

function visitsOfState({ visits }: Logbook, field: FieldState | undefined): VisitRecord[] {
  const since = field?.since ?? null;
  return visits
    .filter(({ shots }) => shots.some(({ target }) => target === 'antenna'))
    .filter(({ time }) => since === null || Date.parse(time) >= Date.parse(since))
    .sort((a, b) => Date.parse(a.time) - Date.parse(b.time));
}

/** @throws UserError `visit-unknown` */
function findVisit({ visits }: Logbook, number: number): VisitRecord {
  const found = visits.find(({ visit }) => visit === number);
  if (found !== undefined) return found;
  throw new UserError('visit-unknown', `there is no visit ${number} in this logbook`, {
    kind: 'command-line',
  });
}

/** The visits nearest in conditions, each figure in units of its usual spread; ties go to the newest. */
function mostAlike(healthy: readonly WatchedVisit[], wanted: Conditions | undefined): number[] {
  if (healthy.length <= MOST_BEFORE || wanted === undefined) return healthy.map(({ visit }) => visit);
  const distance = ({ conditions }: WatchedVisit): number => {
    const apart = (a: number | null, b: number | null, usual: number): number =>
      a === null || b === null ? 0 : ((a - b) / usual) ** 2;
    return (
      apart(conditions.moisture, wanted.moisture, 0.05) +
      apart(conditions.temperature, wanted.temperature, 5) +
      apart(conditions.rainM, wanted.rainM, 0.01) +
      2 * (1 - Math.cos(conditions.seasonRad - wanted.seasonRad))
    );
  };
  return healthy
    .map((visit, i) => ({ visit: visit.visit, distance: distance(visit), i }))
    .sort((a, b) => a.distance - b.distance || b.i - a.i)
    .slice(0, MOST_BEFORE)
    .sort((a, b) => a.i - b.i)
    .map(({ visit }) => visit);
}

/** The feed line that all of these visits were measured through; null when any was not. */
function lineBefore(logbook: Logbook, numbers: readonly number[]): FeedLine | null {
  const shots = numbers.flatMap((number) => findVisit(logbook, number).shots);
  const { feedline } = logbook.site;
  const inShack = shots.every(({ target, plane }) => target !== 'antenna' || plane === 'shack');
  return feedline !== null && inShack ? feedLineOf(feedline) : null;
}

/** Sweeps of the reference load as visits of their own. */
function referenceLoads(visits: readonly MeasuredVisit[]): MeasuredVisit[] {
  return visits
    .filter(({ referenceLoad }) => referenceLoad.length > 0)
    .map(({ label, time, referenceLoad }) => ({ label, time, shots: referenceLoad, referenceLoad: [] }));
}

/** The site with the radials that lie there now in place of those of the file. */
function siteWithField(site: Site, field: FieldState | undefined): Site {
  const count = field?.radials.length ?? 0;
  if (field === undefined || count === 0) return site;
  const none = { diameterM: null, insulated: null, metal: null, depthM: null };
  return { ...site, radials: { ...(site.radials ?? none), count, lengthM: field.wireM / count } };
}
