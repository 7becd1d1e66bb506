import { fieldStateAt } from '../core/layout/field-state.ts';
import type { MeasuredVisit, ReferencePlane, ShotRecord, VisitRecord } from '../core/record.ts';
import type { Band } from '../core/sweep/bands.ts';
import type { UserError } from '../core/user-error.ts';
import type { Grid } from '../instrument/codec/grid.ts';
import type { Instrument } from '../instrument/instrument.ts';
import { planSweep, type RangeAsked } from '../instrument/sweep-plan.ts';
import { type Logbook, lastShots, type WriteOptions, withWriter } from '../logbook/logbook.ts';
import { isoWithZone } from '../logbook/time.ts';
import { type CollectedShot, collectShots, type ShotsHeard } from './collect-shots.ts';
import { correctionFor, sourceOf } from './correction.ts';
import type { ProposeMeasure } from './instrument-options.ts';
import { lastVisit, resonanceOf, shownIn, sweptIn } from './last-visit.ts';

/** What to measure, and how. */
export interface MeasureWish {
  readonly points: number;
  /** Ends of the range that the user named; null for those that are to be chosen. */
  readonly asked: RangeAsked;
  readonly shots: number;
  readonly pauseMs: number;
  readonly plane: ReferencePlane;
  readonly target: ShotRecord['target'];
  /** Takes raw readings as they are. */
  readonly uncorrected: boolean;
  readonly text: string;
}

/** Where and with what. */
export interface MeasureSession {
  readonly instrument: Instrument;
  /** Null when nothing is to be stored. */
  readonly logbook: Logbook | null;
  readonly writing: WriteOptions & { readonly now: () => Date };
  readonly signal: AbortSignal;
  readonly proposeMeasure: ProposeMeasure;
}

/** One band measured. */
export interface MeasuredBand {
  readonly band: Band;
  readonly grid: Grid;
  /** Where the last visit had X = 0, which the range holds unless the user named another; null when none tells. */
  readonly plannedByHz: number | null;
  readonly shots: readonly CollectedShot[];
  /** Number of the visit; null when nothing was stored. */
  readonly visit: number | null;
  readonly time: string;
  readonly correction: string | null;
  /** The visit before, over the same band; null when there is none. */
  readonly last: MeasuredVisit | null;
  /** Nothing was laid or lifted since that visit. */
  readonly sameField: boolean;
  /** What ended the shots early. */
  readonly failure: UserError | null;
}

/** A reference load swept so short a time before belongs to the same visit. */
const LOAD_BELONGS_MS = 3_600_000;

/**
 * Plans, sweeps, and stores what is whole.
 * @param joined - the visit that the bands measured just before are stored as, which this one joins; null for a new one
 */
export async function measureBand(
  session: MeasureSession,
  band: Band,
  wish: MeasureWish,
  heard: ShotsHeard,
  joined: number | null = null,
): Promise<MeasuredBand> {
  const { instrument, logbook, signal, proposeMeasure } = session;
  const { plane } = wish;
  const last = logbook === null ? null : await lastVisit(logbook, band, plane);
  const sameField =
    logbook !== null &&
    typeof last?.time === 'string' &&
    fieldStateAt(logbook.fieldStates, last.time) === logbook.fieldStates.at(-1);
  const plannedByHz = resonanceOf(last, band);
  const { points, asked } = wish;
  const known = { sweptLast: sweptIn(last), shownLast: shownIn(last, band) };
  const grid = planSweep({ band, ...known, asked, points }, instrument.identity);
  const correction = wish.uncorrected
    ? null
    : await correctionFor(instrument.identity, logbook, grid, proposeMeasure);
  const time = isoWithZone(session.writing.now());
  const wanted = { grid, count: wish.shots, pauseMs: wish.pauseMs, plane, correction, signal };
  const { shots, failure } = await collectShots(instrument, wanted, heard);
  const visit =
    logbook === null || shots.length === 0 ? null : await store(session, logbook, wish, shots, time, joined);
  return {
    band,
    grid,
    plannedByHz,
    shots,
    visit,
    time,
    correction: correction?.text ?? null,
    last,
    sameField,
    failure,
  };
}

async function store(
  session: MeasureSession,
  { folder }: Logbook,
  { plane, target, text, uncorrected }: MeasureWish,
  shots: readonly CollectedShot[],
  time: string,
  joined: number | null,
): Promise<number> {
  const { identity } = session.instrument;
  const source = sourceOf(identity) + (uncorrected && !identity.corrected ? ' (uncorrected)' : '');
  const news = shots.map(({ sweep, raw }) => ({ sweep, raw, plane, target, source }));
  return await withWriter(folder, session.writing, async (writer) => {
    const { visits, journal } = writer.logbook;
    const other = target === 'antenna' ? loadBefore(visits, time, source) : null;
    const there = visits.find(({ visit }) => visit === joined) ?? other;
    const joins =
      there === null ? undefined : { visit: there.visit, lastShot: lastShots(journal).get(there.visit) ?? 0 };
    return await writer.addVisit({ time: there?.time ?? time, shots: news, text, joins });
  });
}

/**
 * The newest visit, when it is a sweep of the reference load that was made for this one.
 * @param source - the instrument that must have made it; any when it is not known yet
 */
export function loadBefore(
  visits: readonly VisitRecord[],
  time: string,
  source: string | null = null,
): VisitRecord | null {
  const newest = visits.at(-1);
  if (newest === undefined || Date.parse(time) - Date.parse(newest.time) > LOAD_BELONGS_MS) return null;
  const isLoad = newest.shots.every(
    (shot) => shot.target === 'reference-load' && (source === null || shot.source === source),
  );
  return isLoad ? newest : null;
}
