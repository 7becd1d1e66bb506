import { type BoundedQuantity, type Quantity, UNKNOWN_QUANTITY } from '../quantity-with-uncertainty.ts';
import type { Radial } from '../record.ts';
import type { SiteInstrument } from '../site.ts';
import type { Band } from '../sweep/bands.ts';
import type { FeedLine } from '../sweep/feed-line.ts';
import { type BandReading, readBand } from './band-reading.ts';
import { type ComparedVisit, inEqualParts } from './compared-visit.ts';
import { coverage } from './coverage.ts';
import { figureDifference } from './figure-difference.ts';
import { figurePairs } from './figure-pairs.ts';
import type { Measure } from './figures.ts';
import { gainQuantity } from './overall.ts';
import { type Share, sideFigure, sideLeast } from './pair.ts';
import { choosePairErrors, type ErrorKnowledge } from './pair-errors.ts';
import { type SideEstimate, sideEstimate } from './side-estimate.ts';
import type { ConditionedVisit } from './soil-change.ts';

/** A field state that was measured, as the fit and the table need it. */
export interface StepInput {
  readonly radials: number;
  readonly wireM: number;
  /** What lies there; null where only the number and the length are known, and the field is taken as even. */
  readonly laid?: readonly Radial[] | null;
  /** ISO 8601 with zone. */
  readonly time: string | null;
  readonly visits: readonly ComparedVisit[];
}

/** One row of progress. */
export interface ProgressStep {
  readonly radials: number;
  readonly wireM: number;
  readonly time: string | null;
  readonly visits: number;
  /** Whether repeats, its own or the logbook's, stand behind its R: a single shot alone is no ground to stop on. */
  readonly repeated: boolean;
  readonly resistanceAtResonanceOhm: Quantity;
  /** To be added to R to have it as wet as at the first step that has one; 0 where the logbook does not tell. */
  readonly soilCorrectionOhm: number;
  readonly resonanceHz: Quantity;
  readonly swr2BandwidthHz: BoundedQuantity;
  /** From the ratio of R, so corrected, to that of the first step, dB: a lower estimate of the gain in the field. */
  readonly gainDb: Quantity;
  /** The same against the step before that shows R, as `compare` would have it; unknown for the first one. */
  readonly stepDb: Quantity;
  /** For the fit; null where R at a series resonance of the feed point cannot be had, or there are no radials. */
  readonly point: FitPoint | null;
}

/** The steps, and the visits left out because they do not fit the others of their state. */
export interface ReadSteps {
  readonly steps: readonly ProgressStep[];
  readonly oddVisits: readonly string[];
}

/** A measured point of the curve of resistance against radials. */
export interface FitPoint {
  readonly radials: number;
  readonly lengthM: number;
  readonly laid: readonly Radial[] | null;
  readonly resonanceHz: number;
  /** Corrected for the soil, see {@link ProgressStep.soilCorrectionOhm}. */
  readonly resistanceOhm: number;
  /** Standard uncertainties against the other points. */
  readonly resistanceUncertaintyOhm: number;
  readonly reactanceUncertaintyOhm: number;
}

/**
 * Reads each field state at its own X = 0, and its change against the first one as `compare` would.
 * @throws UserError as {@link readBand}
 */
export function progressSteps(
  inputs: readonly StepInput[],
  band: Band,
  context: { readonly instrument: SiteInstrument | null; readonly line: FeedLine | null },
): ReadSteps {
  const states = inputs.map(({ visits }) =>
    visits.filter(({ shots }) => shots.length > 0 && coverage(band, shots) !== null),
  );
  const all = states.flat();
  const [first] = all;
  if (first === undefined) return { steps: [], oddVisits: [] };
  // Every state is read over the part of the band that all of them cover.
  const question = { before: inEqualParts(all), after: inEqualParts([first]) };
  const reading = readBand(question, band, { ...context, states });
  const sides = reading.states.map(inEqualParts);
  const shows = (side: Side): boolean => sideFigure('resistanceAtResonanceOhm', side) !== null;
  const start = sides.find(shows) ?? [];
  const steps = inputs.map((input, i) => {
    const side = sides[i] ?? [];
    const before = sides.slice(0, i).findLast(shows) ?? [];
    const since = (earlier: Side): Change => changeSince(earlier, side, reading, context.line);
    return { ...readStep(input, side, reading.knowledge, since(start)), stepDb: since(before).gainDb };
  });
  return { steps, oddVisits: reading.oddVisits };
}

type Side = readonly Share<ConditionedVisit>[];

/** What R did since an earlier state. */
interface Change {
  readonly soilOhm: number;
  readonly soilVariance: number;
  readonly gainDb: Quantity;
}

function changeSince(start: Side, side: Side, reading: BandReading, line: FeedLine | null): Change {
  const none = { soilOhm: 0, soilVariance: 0 };
  if (side === start) return { ...none, gainDb: { value: 0, expandedUncertainty: 0, coverageFactor: 2 } };
  if (side.length === 0 || start.length === 0) return { ...none, gainDb: UNKNOWN_QUANTITY };
  const { pair, chosen } = figurePairs({ before: start, after: side }, reading, line).of(
    'resistanceAtResonanceOhm',
  );
  const { value, variance } = pair.correction;
  const gainDb = gainQuantity(figureDifference(pair));
  const stated = chosen.repeats !== 'none' || reading.accuracy.stated;
  return {
    soilOhm: value,
    soilVariance: variance,
    gainDb: stated ? gainDb : { ...UNKNOWN_QUANTITY, value: gainDb.value },
  };
}

function readStep(
  { radials, wireM, time, laid = null }: StepInput,
  side: Side,
  knowledge: ErrorKnowledge,
  { soilOhm, soilVariance, gainDb }: Change,
): Omit<ProgressStep, 'stepDb'> {
  const estimate = (measure: Measure): SideEstimate | null => {
    if (side.length === 0) return null;
    const { sides, errors } = choosePairErrors(measure, { before: side, after: [] }, knowledge);
    return sideEstimate(measure, sides.before, errors);
  };
  const resistance = estimate('resistanceAtResonanceOhm');
  const resonance = estimate('resonanceHz');
  const repeated =
    choosePairErrors('resistanceAtResonanceOhm', { before: side, after: [] }, knowledge).repeats !== 'none';
  const quantity = (found: SideEstimate | null): Quantity => {
    const { value, ...known } = found?.alone.quantity(found.value) ?? UNKNOWN_QUANTITY;
    return repeated || knowledge.accuracy.stated ? { value, ...known } : { ...UNKNOWN_QUANTITY, value };
  };
  const leastHz = sideLeast('swr2BandwidthHz', side);
  const guide = side.every(
    ({ visit }) => visit.resonance?.kind === 'series' && visit.sweep.plane === 'feedpoint',
  );
  return {
    radials,
    wireM,
    time,
    visits: side.length,
    repeated,
    resistanceAtResonanceOhm: quantity(resistance),
    soilCorrectionOhm: soilOhm,
    resonanceHz: quantity(resonance),
    swr2BandwidthHz: {
      ...quantity(estimate('swr2BandwidthHz')),
      ...(leastHz === null ? {} : { atLeast: leastHz }),
    },
    gainDb,
    point:
      resistance === null || resonance === null || radials === 0 || !guide
        ? null
        : {
            radials,
            lengthM: wireM / radials,
            laid,
            resonanceHz: resonance.value,
            resistanceOhm: resistance.value + soilOhm,
            resistanceUncertaintyOhm: Math.hypot(
              resistance.apart.standardUncertainty(),
              Math.sqrt(soilVariance),
            ),
            reactanceUncertaintyOhm: reactanceUncertainty(resistance, resonance, estimate('qualityFactor')),
          },
  };
}

/** The slope of X through zero is 2QR/f, so that an error of the resonance is one of X there. */
function reactanceUncertainty(r: SideEstimate, f: SideEstimate, q: SideEstimate | null): number {
  const slope = (2 * (q?.value ?? 0) * r.value) / f.value;
  return slope * f.apart.standardUncertainty();
}
