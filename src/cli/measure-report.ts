import { type BandComparison, compareVisits, type MeasureComparison } from '../core/proof/compare-visits.ts';
import { type ComparedVisit, inEqualParts } from '../core/proof/compared-visit.ts';
import { SAME_FIELD } from '../core/proof/comparison-document.ts';
import { NO_CONDITIONS } from '../core/proof/conditions.ts';
import type { Measure } from '../core/proof/figures.ts';
import { headline } from '../core/proof/headline.ts';
import type { Quantity } from '../core/quantity-with-uncertainty.ts';
import type { Site } from '../core/site.ts';
import type { Band } from '../core/sweep/bands.ts';
import { feedLineOf } from '../core/sweep/feed-line.ts';
import { asSentence } from '../formats/words.ts';
import { TOLD_AT_ONCE, visitText } from './figures-text.ts';
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
 * Says what a visit shows of a band, with uncertainties, and against the last visit there.
 *
 * @param measured - of the antenna, with at least one whole shot
 */
export function reportVisit(
  { band, shots, visit, time, last: before, sameField }: MeasuredBand,
  site: Site | null,
): VisitReport {
  const now: ComparedVisit = {
    label: visit === null ? 'now' : `visit ${visit}`,
    time,
    shots: shots.map(({ sweep }) => sweep),
    referenceLoad: [],
    conditions: NO_CONDITIONS,
  };
  // A visit beside itself gives its own figures with their uncertainty, whatever the last one was like.
  const own = shownOf(compared(now, now, band, site));
  const figures: VisitReport['figures'] = Object.fromEntries(
    own.map(({ measure, after }) => [measure, after]),
  );
  const ownText = `${band.band}: ${visitText(figures)}`;
  if (before === null) return { band: band.band, figures, against: null, text: ownText };
  const last = { ...before, conditions: NO_CONDITIONS };
  const comparison = compared(last, now, band, site);
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
    against: { visit: last.label, time: last.time, sameField, measures },
    text: [ownText, againstText(comparison, now, last, sameField)].join('\n'),
  };
}

function shownOf({ measures }: BandComparison): MeasureComparison[] {
  return measures.filter(({ measure }) => TOLD_AT_ONCE.includes(measure));
}

function compared(
  before: ComparedVisit,
  after: ComparedVisit,
  band: Band,
  site: Site | null,
): BandComparison {
  const line = site?.feedline == null ? null : feedLineOf(site.feedline);
  const sides = { before: inEqualParts([before]), after: inEqualParts([after]) };
  const context = {
    antennaKind: site?.antenna.kind ?? null,
    instrument: site?.instrument ?? null,
    units: site?.units,
  };
  return compareVisits([{ band, sides, states: [], line }], context)[0] as BandComparison;
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
