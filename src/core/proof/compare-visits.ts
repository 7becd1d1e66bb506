import type { Quantity } from '../quantity-with-uncertainty.ts';
import type { Antenna, SiteInstrument } from '../site.ts';
import type { Band } from '../sweep/bands.ts';
import type { FeedLine } from '../sweep/feed-line.ts';
import type { AnySweep, Sweep } from '../sweep/sweep.ts';
import { UserError } from '../user-error.ts';
import { coverage, withReference } from './coverage.ts';
import { figureDifference } from './figure-difference.ts';
import { MEASURES, type Measure } from './figures.ts';
import { accuracyOf } from './instrument-accuracy.ts';
import { lineChanges } from './line-changes.ts';
import type { BeforeAfter, FigureDifference, Pair } from './pair.ts';
import { type ChosenErrors, choosePairErrors, type ErrorKnowledge } from './pair-errors.ts';
import { referenceLoadScatter } from './reference-load.ts';
import { type Direction, directionOf, judgeTogether, type Verdict } from './verdict.ts';
import { type VisitInBand, visitInBand } from './visit-in-band.ts';
import { type WhatWouldShow, whatWouldShow } from './what-would-show.ts';

/** The shots of one visit, at one plane, as a comparison takes them. */
export interface ComparedVisit {
  readonly label: string;
  /** ISO 8601 with zone; null for loose files. */
  readonly time: string | null;
  readonly shots: readonly AnySweep[];
  readonly referenceLoad: readonly Sweep[];
}

/** What is known beside the two visits; null and empty where nothing is. */
export interface ComparisonContext {
  readonly antennaKind: Antenna['kind'] | null;
  readonly instrument: SiteInstrument | null;
  /** The line through which the sweeps were moved to the feed point. */
  readonly line: FeedLine | null;
  /** The logbook's visits by field state, the pair among them. */
  readonly states: readonly (readonly ComparedVisit[])[];
}

/** One figure before and after, and what may be said of it. */
export interface MeasureComparison {
  readonly measure: Measure;
  readonly before: Quantity;
  readonly after: Quantity;
  readonly difference: Quantity;
  readonly verdict: Verdict;
  readonly meaning: string;
  /** Two-sided, after Holm's correction; null where nothing was tested. */
  readonly probability: number | null;
  readonly wouldShow: WhatWouldShow;
}

/** Two visits compared in one band. */
export interface BandComparison {
  readonly band: Band;
  /** The part of the band that both cover; null when they share none. */
  readonly covered: Band | null;
  readonly visits: BeforeAfter<VisitInBand>;
  readonly measures: readonly MeasureComparison[];
  readonly repeats: ChosenErrors['repeats'];
  readonly visitErrors: ChosenErrors['visits'];
  readonly accuracyStated: boolean;
  readonly reflectionUncertainty: number;
}

/**
 * Compares two visits in one or more bands, each figure at its own X = 0, and judges all of them together.
 *
 * @param bands - at least one
 * @throws UserError `planes-differ`, and as {@link visitInBand}
 */
export function compareVisits(
  visits: BeforeAfter<ComparedVisit>,
  bands: readonly Band[],
  context: ComparisonContext,
): BandComparison[] {
  refuseTwoPlanes(visits);
  const pairs = bands.map((band) => pairInBand(visits, band, context));
  const judgements = judgeTogether(pairs.flatMap((pair) => pair.figures));
  const tested = judgements.filter(({ probability }) => probability !== null).length;
  let next = 0;
  return pairs.map(({ figures, ...rest }) => ({
    ...rest,
    measures: figures.map(({ pair, measure, difference, direction, stand }) => {
      const judgement = judgements[next++];
      const alone = (side: 'before' | 'after'): Quantity => ({
        value: rest.visits[side].figures[measure],
        expandedUncertainty: stand ? (difference?.[side].expandedUncertainty ?? null) : null,
        coverageFactor: difference?.[side].coverageFactor ?? 2,
      });
      const [before, after] = [alone('before'), alone('after')];
      return {
        measure,
        before,
        after,
        difference: {
          value: before.value === null || after.value === null ? null : after.value - before.value,
          expandedUncertainty: stand ? (difference?.difference.expandedUncertainty ?? null) : null,
          coverageFactor: difference?.difference.coverageFactor ?? 2,
        },
        verdict: judgement?.verdict ?? 'not shown',
        meaning: direction.meaning,
        probability: judgement?.probability ?? null,
        wouldShow: whatWouldShow(pair, stand ? difference : null, Math.max(1, tested)),
      };
    }),
  }));
}

interface JudgedFigure {
  readonly measure: Measure;
  readonly pair: Pair;
  readonly difference: FigureDifference | null;
  readonly direction: Direction;
  readonly claimable: boolean;
  /** Whether an uncertainty may be stated at all: from repeats, or from the site's word on the instrument. */
  readonly stand: boolean;
}

type UnjudgedBand = Omit<BandComparison, 'measures'> & { readonly figures: readonly JudgedFigure[] };

function pairInBand(
  compared: BeforeAfter<ComparedVisit>,
  band: Band,
  context: ComparisonContext,
): UnjudgedBand {
  const covered = coverage(band, [...compared.before.shots, ...compared.after.shots]);
  const accuracy = accuracyOf(context.instrument, context.line, (band.fromHz + band.toHz) / 2);
  const referenceOhm = compared.before.shots[0]?.referenceOhm;
  const read = (visit: ComparedVisit): VisitInBand =>
    visitInBand(
      withReference(visit.shots, referenceOhm),
      covered ?? coverage(band, visit.shots) ?? band,
      accuracy.reflection,
    );
  const visits = { before: read(compared.before), after: read(compared.after) };
  const states = context.states
    .map((state) => state.filter((visit) => coverage(covered ?? band, visit.shots) !== null).map(read))
    .filter((state) => state.length > 0);
  const knowledge: ErrorKnowledge = {
    accuracy,
    states,
    loadScatter: referenceLoadScatter(
      context.states.flat().map((visit) => visit.referenceLoad),
      band,
    ),
    loadScatterOfPair: referenceLoadScatter(
      [compared.before.referenceLoad, compared.after.referenceLoad],
      band,
    ),
  };
  const changes = lineChanges(visits, context.line);
  const series = visits.before.resonance?.kind !== 'parallel' && visits.after.resonance?.kind !== 'parallel';
  const chosenFor = new Map(
    MEASURES.map((measure) => [measure, choosePairErrors(measure, visits, knowledge)]),
  );
  const resistance = chosenFor.get('resistanceAtResonanceOhm') as ChosenErrors;
  const figures = MEASURES.map((measure): JudgedFigure => {
    const chosen = chosenFor.get(measure) as ChosenErrors;
    const shared = changes.map((change) => change[measure] ?? { before: 0, after: 0 });
    const pair = { measure, visits, errors: chosen.errors, shared, extraVariance: 0 };
    return {
      measure,
      pair,
      difference: figureDifference(pair),
      direction: directionOf(measure, context.antennaKind, series),
      claimable: chosen.repeats !== 'none',
      stand: chosen.repeats !== 'none' || accuracy.stated,
    };
  });
  return {
    band,
    covered,
    visits,
    figures,
    repeats: resistance.repeats,
    visitErrors: resistance.visits,
    accuracyStated: accuracy.stated,
    reflectionUncertainty: accuracy.reflection,
  };
}

function refuseTwoPlanes(visits: BeforeAfter<ComparedVisit>): void {
  const planes = new Set([...visits.before.shots, ...visits.after.shots].map((shot) => shot.plane));
  if (planes.size < 2) return;
  throw new UserError(
    'planes-differ',
    'one visit was measured at the feed point and the other at the shack: they cannot be compared as they are; give both the same plane, or the feed line so that one can be moved',
  );
}
