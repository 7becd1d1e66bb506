import {
  type BandComparison,
  type BandQuestion,
  type ComparisonContext,
  compareVisits,
  type MeasureComparison,
} from '../core/proof/compare-visits.ts';
import { type ComparedVisit, inEqualParts } from '../core/proof/compared-visit.ts';
import { SAME_FIELD } from '../core/proof/comparison-document.ts';
import { NO_CONDITIONS } from '../core/proof/conditions.ts';
import type { Measure } from '../core/proof/figures.ts';
import { headline } from '../core/proof/headline.ts';
import type { Quantity } from '../core/quantity-with-uncertainty.ts';
import type { Site } from '../core/site.ts';
import { UserError } from '../core/user-error.ts';
import { asSentence } from '../formats/words.ts';
import type { Logbook } from '../logbook/logbook.ts';
import { TOLD_AT_ONCE, visitText } from './figures-text.ts';
import { countingVisits, measuredInBand } from './logbook-visits.ts';
import type { MeasuredBand } from './measure-band.ts';

/** The figures of one visit, and against the one before it. */
export interface VisitReport {
  readonly band: string;
  readonly figures: Readonly<Partial<Record<Measure, Quantity>>>;
  readonly against: {
    readonly visit: string;
    readonly time: string | null;
    /** Nothing was laid or lifted in between, so that wires changed nothing. */
    readonly sameField: boolean;
    readonly measures: readonly Pick<
      MeasureComparison,
      'measure' | 'before' | 'after' | 'difference' | 'verdict'
    >[];
  } | null;
  readonly text: string;
}

/**
 * Says what a visit shows of a band, with uncertainties, and against the last visit there: as `compare` does, which
 * pools over the whole logbook.
 *
 * @param measured - of the antenna, with at least one whole shot
 * @param logbook - as it is now, with that visit; null where it was not stored
 */
export async function reportVisit(measured: MeasuredBand, logbook: Logbook | null): Promise<VisitReport> {
  const { band, sameField } = measured;
  const { now, before, question } = await visitsOf(measured, logbook);
  const compared = (first: ComparedVisit): BandComparison => {
    const sides = { before: inEqualParts([first]), after: inEqualParts([now]) };
    return compareVisits(
      [{ band, sides, ...question }],
      contextOf(logbook?.site ?? null),
    )[0] as BandComparison;
  };
  // A visit beside itself gives its own figures with their uncertainty, whatever the last one was like.
  const own = shownOf(compared(now));
  const figures: VisitReport['figures'] = Object.fromEntries(
    own.map(({ measure, after }) => [measure, after]),
  );
  const ownText = `${band.band}${question.line === null ? '' : ', at the feed point'}: ${visitText(figures)}`;
  if (before === null) return { band: band.band, figures, against: null, text: ownText };
  const comparison = compared(before);
  const measures = shownOf(comparison).map(({ measure, before, after, difference, verdict }) => ({
    measure,
    before,
    after,
    difference,
    verdict,
  }));
  return {
    band: band.band,
    figures,
    against: { visit: before.label, time: before.time, sameField, measures },
    text: [ownText, againstText(comparison, now, before, sameField)].join('\n'),
  };
}

function shownOf({ measures }: BandComparison): MeasureComparison[] {
  return measures.filter(({ measure }) => TOLD_AT_ONCE.includes(measure));
}

interface Compared {
  readonly now: ComparedVisit;
  /** Null where there is none. */
  readonly before: ComparedVisit | null;
  readonly question: Pick<BandQuestion, 'states' | 'line'>;
}

/** The visits as the logbook tells them; shots that were not stored stand for themselves. */
async function visitsOf(
  { band, shots, visit, time, last }: MeasuredBand,
  logbook: Logbook | null,
): Promise<Compared> {
  const inBand =
    logbook === null
      ? null
      : await measuredInBand(logbook, band, visit === null ? [] : [visit]).catch(noLine);
  if (inBand !== null) {
    const { states, line } = inBand;
    const visits = states.flatMap((state) => state.visits);
    const stored = (label: string | undefined) => visits.find((one) => one.label === label) ?? null;
    const now = stored(`visit ${visit}`);
    const question = { states: states.map(countingVisits), line };
    if (now !== null) return { now, before: stored(last?.label), question };
  }
  const sweeps = shots.map(({ sweep }) => sweep);
  const now = { label: 'now', time, shots: sweeps, referenceLoad: [], conditions: NO_CONDITIONS };
  return { now, before: null, question: { states: [], line: null } };
}

/** Sweeps at both planes and no line known to move them by: the shots that were just stored are told all the same. */
function noLine(error: unknown): null {
  if (error instanceof UserError && error.code === 'feedline-needed') return null;
  throw error;
}

function contextOf(site: Site | null): ComparisonContext {
  const { antenna, instrument, units } = site ?? {};
  return { antennaKind: antenna?.kind ?? null, instrument: instrument ?? null, units };
}

/** Which visits were compared, what came of it, and whether wires can be behind it. */
function againstText(
  comparison: BandComparison,
  now: ComparedVisit,
  last: ComparedVisit,
  sameField: boolean,
): string {
  const sides = asSentence(
    `${now.label}, against ${last.label}${last.time === null ? '' : ` of ${last.time}`}`,
  );
  return [sides, headline(comparison, { sameField }), ...(sameField ? [asSentence(SAME_FIELD)] : [])].join(
    ' ',
  );
}
