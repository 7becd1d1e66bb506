import { type BandComparison, compareVisits, type MeasureComparison } from '../core/proof/compare-visits.ts';
import { type ComparedVisit, inEqualParts } from '../core/proof/compared-visit.ts';
import { NO_CONDITIONS } from '../core/proof/conditions.ts';
import type { Measure } from '../core/proof/figures.ts';
import { headline } from '../core/proof/headline.ts';
import { plusMinus, SHOWN_AS } from '../core/proof/shown-as.ts';
import type { Quantity } from '../core/quantity-with-uncertainty.ts';
import type { Site } from '../core/site.ts';
import type { Band } from '../core/sweep/bands.ts';
import { feedLineOf } from '../core/sweep/feed-line.ts';
import type { MeasuredBand } from './measure-band.ts';

/** What `measure` shows at once of a band; the rest is for `read`, `compare` and `history`. */
const SHOWN: readonly Measure[] = ['minSwr', 'resonanceHz', 'resistanceAtResonanceOhm'];

/** The figures of one visit, and against the one before it. */
export interface VisitReport {
  readonly band: string;
  readonly figures: Readonly<Record<string, Quantity>>;
  readonly against: {
    readonly visit: string;
    readonly time: string | null;
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
  { band, shots, visit, time, last: before }: MeasuredBand,
  site: Site | null,
): VisitReport {
  const now: ComparedVisit = {
    label: visit === null ? 'now' : `visit ${visit}`,
    time,
    shots: shots.map(({ sweep }) => sweep),
    referenceLoad: [],
    conditions: NO_CONDITIONS,
  };
  const last = before === null ? null : { ...before, conditions: NO_CONDITIONS };
  // A visit beside itself gives its own figures with their uncertainty, whatever the last one was like.
  const own = shownOf(compared(now, now, band, site));
  const comparison = last === null ? null : compared(last, now, band, site);
  return {
    band: band.band,
    figures: Object.fromEntries(own.map(({ measure, after }) => [measure, after])),
    against:
      last === null || comparison === null
        ? null
        : {
            visit: last.label,
            time: last.time,
            measures: shownOf(comparison).map(({ measure, before, after, difference, verdict }) => ({
              measure,
              before,
              after,
              difference,
              verdict,
            })),
          },
    text: [
      figuresText(own, band),
      ...(last === null || comparison === null ? [] : [againstText(comparison, last)]),
    ].join('\n'),
  };
}

function shownOf({ measures }: BandComparison): MeasureComparison[] {
  return measures.filter(({ measure }) => SHOWN.includes(measure));
}

function compared(
  before: ComparedVisit,
  after: ComparedVisit,
  band: Band,
  site: Site | null,
): BandComparison {
  const line = site?.feedline == null ? null : feedLineOf(site.feedline);
  const sides = { before: inEqualParts([before]), after: inEqualParts([after]) };
  const context = { antennaKind: site?.antenna.kind ?? null, instrument: site?.instrument ?? null };
  return compareVisits([{ band, sides, states: [], line }], context)[0] as BandComparison;
}

function figuresText(shown: readonly MeasureComparison[], { band }: Band): string {
  const known = shown.filter(({ after }) => after.value !== null);
  const parts = known.map(({ measure, after }) => {
    const { name, unit, perSi, decimals } = SHOWN_AS[measure];
    return `${name} ${plusMinus(after, perSi, decimals).replace(/^\+/u, '')} ${unit}`.trim();
  });
  const crosses = known.some(({ measure }) => measure === 'resonanceHz');
  return `${band}: ${[...parts, ...(crosses ? [] : ['X never crosses zero near the band'])].join('; ')}`;
}

function againstText(comparison: BandComparison, last: ComparedVisit): string {
  return `Against ${last.label}${last.time === null ? '' : ` of ${last.time}`}: ${headline(comparison)}`;
}
