import type { UnitSystem } from '../quantity.ts';
import type { BoundedQuantity, Quantity } from '../quantity-with-uncertainty.ts';
import type { Antenna, SiteInstrument } from '../site.ts';
import type { Band } from '../sweep/bands.ts';
import type { FeedLine } from '../sweep/feed-line.ts';
import { type BandReading, readBand } from './band-reading.ts';
import type { ComparedVisit } from './compared-visit.ts';
import { figureDifference } from './figure-difference.ts';
import { figurePairs } from './figure-pairs.ts';
import { MEASURES, type Measure } from './figures.ts';
import {
  type BeforeAfter,
  type FigureDifference,
  type Pair,
  type Share,
  sideFigure,
  sideLeast,
} from './pair.ts';
import type { ChosenErrors } from './pair-errors.ts';
import { type Direction, directionOf, judgeTogether, type Verdict } from './verdict.ts';
import { type WhatWouldShow, whatWouldShow } from './what-would-show.ts';

/** What is to be compared in one band. */
export interface BandQuestion {
  readonly band: Band;
  /** At least one visit each. */
  readonly sides: BeforeAfter<readonly Share<ComparedVisit>[]>;
  /** The logbook's visits of this band by field state, the compared ones among them; empty where there are no others. */
  readonly states: readonly (readonly ComparedVisit[])[];
  /** The line through which the sweeps were moved to the feed point; null where none was. */
  readonly line: FeedLine | null;
}

/** What the site tells of the antenna and the instrument; null where nothing is known. */
export interface ComparisonContext {
  readonly antennaKind: Antenna['kind'] | null;
  readonly instrument: SiteInstrument | null;
  /** Of the temperatures in the notes; metric where nothing is told. */
  readonly units?: UnitSystem | undefined;
}

/** One figure before and after, and what may be said of it. */
export interface MeasureComparison {
  readonly measure: Measure;
  readonly before: BoundedQuantity;
  readonly after: BoundedQuantity;
  readonly difference: BoundedQuantity;
  /** What was added to after minus before for the soil between them; 0 without a correction. */
  readonly soilCorrection: number;
  readonly verdict: Verdict;
  readonly direction: Direction;
  /** Two-sided, after Holm's correction; null where nothing was tested. */
  readonly probability: number | null;
  readonly wouldShow: WhatWouldShow;
}

/** Two sides compared in one band. */
export interface BandComparison extends BandReading {
  readonly measures: readonly MeasureComparison[];
  readonly repeats: ChosenErrors['repeats'];
  readonly visitErrors: ChosenErrors['visits'];
  readonly soilNotes: readonly string[];
}

/**
 * Compares two sides, of one or more visits each, in one or more bands: each figure at its own X = 0, and all
 * of them judged together.
 *
 * @param questions - at least one
 * @throws UserError `planes-differ`, and as {@link readBand}
 */
export function compareVisits(
  questions: readonly BandQuestion[],
  context: ComparisonContext,
): BandComparison[] {
  const unjudged = questions.map((question) => compareInBand(question, context));
  const judgements = judgeTogether(unjudged.flatMap(({ figures }) => figures));
  const tested = judgements.filter(({ probability }) => probability !== null).length;
  let next = 0;
  return unjudged.map(({ figures, ...rest }) => ({
    ...rest,
    measures: figures.map((figure) => {
      const { verdict, probability } = judgements[next++] ?? { verdict: 'not shown', probability: null };
      return {
        ...quantitiesOf(figure),
        measure: figure.pair.measure,
        soilCorrection: figure.pair.correction.value,
        verdict,
        direction: figure.direction,
        probability,
        wouldShow: whatWouldShow(figure.pair, figure.stated ? figure.difference : null, Math.max(1, tested)),
      };
    }),
  }));
}

/** One figure of a comparison. */
export function measureOf({ measures }: BandComparison, measure: Measure): MeasureComparison {
  return measures.find((found) => found.measure === measure) as MeasureComparison;
}

interface UnjudgedFigure {
  readonly pair: Pair;
  readonly difference: FigureDifference | null;
  readonly direction: Direction;
  readonly claimable: boolean;
  /** Whether an uncertainty may be stated at all: from repeats, or from the site's word on the instrument. */
  readonly stated: boolean;
}

type UnjudgedBand = Omit<BandComparison, 'measures'> & { readonly figures: readonly UnjudgedFigure[] };

function compareInBand(question: BandQuestion, context: ComparisonContext): UnjudgedBand {
  const { instrument, antennaKind, units = 'metric' } = context;
  const reading = readBand(question.sides, question.band, { ...question, instrument });
  const { sides, accuracy } = reading;
  const pairs = figurePairs(sides, reading, question.line);
  const all = [...sides.before, ...sides.after];
  const series = all.every(({ visit }) => visit.resonance?.kind !== 'parallel');
  const plane = all[0]?.visit.sweep.plane ?? 'feedpoint';
  const read = MEASURES.map((measure) => ({ measure, ...pairs.of(measure) }));
  const figures = read.map(
    ({ measure, pair, chosen: { repeats } }): UnjudgedFigure => ({
      pair,
      difference: figureDifference(pair),
      direction: directionOf(measure, { kind: antennaKind, series, plane }),
      claimable: repeats !== 'none',
      stated: repeats !== 'none' || accuracy.stated,
    }),
  );
  // R tells where the errors come from; where it cannot be had, a figure that can.
  const ofR = pairs.of('resistanceAtResonanceOhm').chosen;
  const { repeats, visits } =
    ofR.repeats === 'none' ? (read.find(({ chosen }) => chosen.repeats !== 'none')?.chosen ?? ofR) : ofR;
  return { ...reading, figures, repeats, visitErrors: visits, soilNotes: pairs.soilNotes(units) };
}

/** Where no uncertainty may be stated the values stand alone; what a sweep ends too early to tell is a bound. */
function quantitiesOf(figure: UnjudgedFigure): Record<'before' | 'after' | 'difference', BoundedQuantity> {
  const { measure, sides, correction } = figure.pair;
  const shown = (side: keyof typeof sides): number | null => sideFigure(measure, sides[side]);
  const least = (side: keyof typeof sides): number | null => sideLeast(measure, sides[side]);
  const [before, after] = [shown('before'), shown('after')];
  const [leastBefore, leastAfter] = [least('before'), least('after')];
  const change = (then: number | null, now: number | null): number | null =>
    then === null || now === null ? null : now - then + correction.value;
  const quantity = (value: number | null, found: Quantity | undefined): Quantity => ({
    value,
    expandedUncertainty: figure.stated ? (found?.expandedUncertainty ?? null) : null,
    coverageFactor: found?.coverageFactor ?? 2,
  });
  const found = figure.difference;
  return {
    before: { ...quantity(before, found?.before), ...bounds(leastBefore) },
    after: { ...quantity(after, found?.after), ...bounds(leastAfter) },
    difference: {
      ...quantity(change(before, after), found?.difference),
      ...bounds(change(before, leastAfter), change(leastBefore, after)),
    },
  };
}

function bounds(
  atLeast: number | null,
  atMost: number | null = null,
): Pick<BoundedQuantity, 'atLeast' | 'atMost'> {
  return { ...(atLeast === null ? {} : { atLeast }), ...(atMost === null ? {} : { atMost }) };
}
