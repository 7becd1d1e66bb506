import { apartEvidence } from '../core/drift/apart-notes.ts';
import { onCommonRange } from '../core/drift/common-range.ts';
import { conditionTeller } from '../core/drift/conditions.ts';
import { type Diagnosis, diagnose } from '../core/drift/diagnosis.ts';
import type { WatchedRound } from '../core/drift/feature-chart.ts';
import { followedBands } from '../core/drift/followed-bands.ts';
import { mostAlike } from '../core/drift/most-alike.ts';
import { noteEvidence, withNotes } from '../core/drift/notes.ts';
import { type Round, roundsOf } from '../core/drift/rounds.ts';
import { soilEvidence } from '../core/drift/soil-notes.ts';
import type { ProbableCause } from '../core/drift/steady-causes.ts';
import { type JudgedBy, type Watch, watchRounds } from '../core/drift/watch.ts';
import { type WiresChanged, wiresChanged } from '../core/drift/wires-changed.ts';
import { fieldStateAt } from '../core/layout/field-state.ts';
import { isSameField } from '../core/layout/same-field.ts';
import type { FieldState, VisitRecord } from '../core/record.ts';
import type { Site } from '../core/site.ts';
import type { Band } from '../core/sweep/bands.ts';
import { type FeedLine, feedLineOf } from '../core/sweep/feed-line.ts';
import type { UserError } from '../core/user-error.ts';
import { driftFigures } from '../logbook/drift-figures.ts';
import { type Logbook, type OnLost, openGrownLogbook } from '../logbook/logbook.ts';
import { toldApart } from './apart-text.ts';
import { baselineMissing, type Propose, visitUnknown } from './drift-refusals.ts';
import { measuredRounds, referenceLoads } from './measured-rounds.ts';
import { numbered } from './numbers.ts';

/** What a logbook says about drift: charts over time, and the causes of what is seen now. */
export interface LogbookDrift {
  readonly bands: readonly Band[];
  /** Every round over the field that is judged, rising in time. */
  readonly rounds: readonly Round[];
  readonly watch: Watch;
  readonly diagnosis: Diagnosis;
  /** Behind the diagnosis: the healthy rounds, and those that are judged by them. */
  readonly baseline: readonly Round[];
  readonly judged: readonly Round[];
  /** Why these are judged; null when the user named them. */
  readonly judgedBy: JudgedBy | null;
  /** How many rounds the baseline was chosen from; null when the user named it. */
  readonly chosenFrom: number | null;
  readonly wires: Wires;
  /** Days of repairs noted between the first and the last visit of the baseline, which no fault that went explains. */
  readonly repairs: readonly string[];
  /** Stored sweeps that are gone or changed, and were done without. */
  readonly lost: readonly UserError[];
}

/** What the journal says of the field beside the diagnosis. */
export interface Wires {
  /** How many radials lay there when the judged visits were made. */
  readonly radials: number;
  /** What was changed between baseline and judged visits; null when nothing was. */
  readonly between: WiresChanged | null;
  /** What was changed since the newest visit; null when nothing was. */
  readonly since: WiresChanged | null;
  /** Rounds over other fields, which serve for nothing here. */
  readonly roundsElsewhere: number;
}

/** Which visits to judge, and whom to tell how far it is. */
export interface LogbookDriftOptions {
  /** Visits to be held against each other; found by the charts unless given. */
  readonly before?: readonly number[] | undefined;
  readonly after?: readonly number[] | undefined;
  readonly onProgress?: (done: number, of: number) => void;
  /** A command to be pasted, where a refusal names one. */
  readonly propose?: Propose;
}

/** Whole sweeps are loaded for so many rounds; the rest are known by their figures. */
const MOST_BEFORE = 24;
const MOST_AFTER = 8;

/**
 * Diagnoses a logbook by its own baseline: the healthy rounds over the field of the newest visit that are most like the
 * changed ones in moisture, temperature, rain and season. All bands of a round are used together.
 *
 * A sweep that is gone or changed counts as never made: whatever was chosen with it is chosen anew.
 *
 * Memory: the journal, 400 bytes for each sweep and band, and the whole sweeps of at most 32 rounds.
 *
 * @throws UserError `baseline-missing`, `visit-unknown`; why the first sweep is lost, where too little is left without
 */
export async function diagnoseLogbook(
  logbook: Logbook,
  options: LogbookDriftOptions = {},
): Promise<LogbookDrift> {
  const lost = new Map<string, UserError>();
  for (;;) {
    const known = lost.size;
    try {
      const found = await diagnoseWhole(withoutShots(logbook, lost), options, (error, { file }) => {
        lost.set(file, error);
      });
      if (lost.size === known) return { ...found, lost: [...lost.values()] };
    } catch (error) {
      if (lost.size === known) throw [...lost.values()][0] ?? error;
    }
  }
}

/** A logbook as if sweeps of it, by their files, had never been stored. */
function withoutShots(logbook: Logbook, lost: ReadonlyMap<string, unknown>): Logbook {
  if (lost.size === 0) return logbook;
  const visits = logbook.visits.map((visit) => ({
    ...visit,
    shots: visit.shots.filter(({ file }) => !lost.has(file)),
  }));
  return { ...logbook, visits };
}

/** {@link diagnoseLogbook} of sweeps that are all there; those that are not are heard of, and the answer is void. */
async function diagnoseWhole(
  logbook: Logbook,
  options: LogbookDriftOptions,
  onLost: OnLost,
): Promise<Omit<LogbookDrift, 'lost'>> {
  const { site, fieldStates, readings } = logbook;
  const bands = followedBands(site, logbook.visits);
  const all = roundsOf(logbook.visits, bands);
  const asked = (numbers: readonly number[] | undefined): Round[] | null =>
    numbers === undefined ? null : roundsOf(visitsAsked(logbook, numbers), bands);
  const [before, after] = [asked(options.before), asked(options.after)];
  const newest = (after ?? all).at(-1);
  if (newest === undefined) throw baselineMissing(logbook, [], null, options.propose);
  const field = fieldStateAt(fieldStates, newest.time);
  const rounds = all.filter(isOver(fieldStates, field));
  if (rounds.length < 2 && (before === null || after === null)) {
    const elsewhere = all.findLast((round) => !rounds.includes(round)) ?? null;
    throw baselineMissing(logbook, rounds, elsewhere, options.propose);
  }
  const figures = await driftFigures(logbook, rounds, bands, onLost, options.onProgress);
  const conditions = conditionTeller(readings);
  const watched = rounds.map(
    ({ time, baseline }, i): WatchedRound => ({
      timeMs: Date.parse(time),
      baseline,
      ofBand: figures[i] ?? [],
      conditions: conditions(time),
    }),
  );
  const repairsMs = readings
    .filter(({ kind }) => kind === 'repair')
    .map(({ time }) => Date.parse(time))
    .sort((a, b) => a - b);
  const watch = watchRounds(watched, bands.length, repairsMs);
  const roundsAt = (places: readonly number[]): Round[] => places.map((place) => rounds[place] as Round);
  const judged = (after ?? roundsAt(watch.changed)).slice(-MOST_AFTER);
  const baseline = before ?? healthyLike(roundsAt(watch.healthy), judged.at(-1) ?? newest, conditions);
  if (baseline.length === 0) throw baselineMissing(logbook, rounds, null, options.propose);
  const lastHealthy = (baseline.at(-1) as Round).time;

  const measured = onCommonRange(await measuredRounds(logbook, [...baseline, ...judged], onLost), bands);
  const [measuredBefore, measuredAfter] = [
    measured.slice(0, baseline.length),
    measured.slice(baseline.length),
  ];
  const diagnosis = diagnose({
    before: measuredBefore,
    after: measuredAfter,
    referenceBefore: referenceLoads(measuredBefore),
    referenceAfter: referenceLoads(measuredAfter),
    site: siteWithField(site, field),
    line: lineBefore(site, [...baseline, ...judged]),
    notes: [
      noteEvidence(readings.filter(({ time }) => Date.parse(time) >= Date.parse(lastHealthy))),
      soilEvidence(
        baseline.map(({ time }) => conditions(time)),
        judged.map(({ time }) => conditions(time)),
      ),
      apartEvidence(
        toldApart({ watch, rounds })
          .filter(() => after === null)
          .map(({ visits, repairedOn }) => ({ visits: numbered('visit', visits), repairedOn })),
      ),
    ].reduce(withNotes),
  });
  return {
    bands,
    rounds,
    watch,
    diagnosis,
    baseline,
    judged,
    judgedBy: after === null ? watch.judgedBy : null,
    chosenFrom: before === null ? watch.healthy.length : null,
    wires: {
      radials: field.radials.length,
      between: wiresChanged(fieldStates, lastHealthy, newest.time),
      since: wiresChanged(fieldStates, newest.time, fieldStates.at(-1)?.since ?? newest.time),
      roundsElsewhere: all.length - rounds.length,
    },
    repairs: repairsWithin(repairsMs, baseline)
      .filter((ms) => !watch.apart.some(({ repairedMs }) => repairedMs === ms))
      .map((ms) => new Date(ms).toISOString().slice(0, 10)),
  };
}

/** The causes of what a logbook shows now, for a command that acts when they change. */
export async function causesOfLogbook(folder: string): Promise<readonly ProbableCause[]> {
  return (await diagnoseLogbook(await openGrownLogbook(folder))).diagnosis.causes;
}

function repairsWithin(repairsMs: readonly number[], baseline: readonly Round[]): number[] {
  const times = baseline.map(({ time }) => Date.parse(time));
  const [first, last] = [Math.min(...times), Math.max(...times)];
  return repairsMs.filter((ms) => ms > first && ms <= last);
}

/** @throws UserError `visit-unknown` */
function visitsAsked({ visits }: Logbook, numbers: readonly number[]): VisitRecord[] {
  return numbers.map((number) => {
    const found = visits.find(({ visit }) => visit === number);
    const isOfAntenna = found?.shots.some(({ target }) => target === 'antenna') ?? false;
    if (found === undefined || !isOfAntenna) throw visitUnknown(number, found !== undefined);
    return found;
  });
}

/** Whether a round was made over a field; the states are compared once, for a year has many rounds. */
function isOver(states: readonly FieldState[], field: FieldState): (round: Round) => boolean {
  const same = new Set(states.filter((state) => isSameField(state, field)));
  return ({ time }) => same.size === states.length || same.has(fieldStateAt(states, time));
}

function healthyLike(
  healthy: readonly Round[],
  { time }: Round,
  conditions: ReturnType<typeof conditionTeller>,
): Round[] {
  if (healthy.length <= MOST_BEFORE) return [...healthy];
  const members = healthy.map((round) => ({ round, conditions: conditions(round.time) }));
  return mostAlike(members, conditions(time), MOST_BEFORE).map(({ round }) => round);
}

/** The feed line that all of these were measured through; null when any was not. */
function lineBefore({ feedline }: Site, rounds: readonly Round[]): FeedLine | null {
  const shots = rounds.flatMap(({ visits }) => visits.flatMap((visit) => visit.shots));
  const inShack = shots.every(({ target, plane }) => target !== 'antenna' || plane === 'shack');
  return feedline !== null && inShack ? feedLineOf(feedline) : null;
}

/** The site with the radials that lay there in place of those of the file. */
function siteWithField(site: Site, { radials, wireM }: FieldState): Site {
  const count = radials.length;
  if (count === 0) return site;
  const none = { diameterM: null, insulated: null, metal: null, depthM: null };
  return { ...site, radials: { ...(site.radials ?? none), count, lengthM: wireM / count } };
}
