import type { Quantity } from '../quantity-with-uncertainty.ts';
import type { SiteInstrument } from '../site.ts';
import type { Band } from '../sweep/bands.ts';
import type { FeedLine } from '../sweep/feed-line.ts';
import { readBand } from './band-reading.ts';
import { type ComparedVisit, inEqualParts } from './compared-visit.ts';
import { coverage } from './coverage.ts';
import type { Measure } from './figures.ts';
import { resistanceGain } from './overall.ts';
import type { Share } from './pair.ts';
import { choosePairErrors, type ErrorKnowledge } from './pair-errors.ts';
import { type SideEstimate, sideEstimate } from './side-estimate.ts';
import type { ConditionedVisit } from './soil-change.ts';
import { coverageFactor } from './student.ts';

/** A field state that was measured, as the fit and the table need it. */
export interface StepInput {
  readonly radials: number;
  readonly wireM: number;
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
  readonly resistanceAtResonanceOhm: Quantity;
  readonly resonanceHz: Quantity;
  readonly swr2BandwidthHz: Quantity;
  /** From the ratio of R to the first step that has one, dB: a lower estimate of the gain in the field. */
  readonly gainDb: Quantity;
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
  readonly resonanceHz: number;
  readonly resistanceOhm: number;
  /** Standard uncertainties against the other points. */
  readonly resistanceUncertaintyOhm: number;
  readonly reactanceUncertaintyOhm: number;
}

const UNKNOWN: Quantity = { value: null, expandedUncertainty: null, coverageFactor: 2 };

/**
 * Reads each field state at its own X = 0.
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
  const {
    states: read,
    knowledge,
    oddVisits,
  } = readBand({ before: inEqualParts(all), after: inEqualParts([first]) }, band, { ...context, states });
  const rows = inputs.map((input, i) => readStep(input, inEqualParts(read[i] ?? []), knowledge));
  const start = rows.find(({ resistance }) => resistance !== null)?.resistance ?? null;
  const steps = rows.map(({ step, resistance }) => ({ ...step, gainDb: gainAgainst(start, resistance) }));
  return { steps, oddVisits };
}

function readStep(
  input: StepInput,
  side: readonly Share<ConditionedVisit>[],
  knowledge: ErrorKnowledge,
): { step: Omit<ProgressStep, 'gainDb'>; resistance: SideEstimate | null } {
  const { radials, wireM, time } = input;
  const estimate = (measure: Measure): SideEstimate | null => {
    if (side.length === 0) return null;
    const { sides, errors } = choosePairErrors(measure, { before: side, after: [] }, knowledge);
    return sideEstimate(measure, sides.before, errors);
  };
  const resistance = estimate('resistanceAtResonanceOhm');
  const resonance = estimate('resonanceHz');
  const quality = estimate('qualityFactor');
  const quantity = (found: SideEstimate | null): Quantity => found?.alone.quantity(found.value) ?? UNKNOWN;
  const guide = side.every(
    ({ visit }) => visit.resonance?.kind === 'series' && visit.sweep.plane === 'feedpoint',
  );
  return {
    resistance,
    step: {
      radials,
      wireM,
      time,
      visits: side.length,
      resistanceAtResonanceOhm: quantity(resistance),
      resonanceHz: quantity(resonance),
      swr2BandwidthHz: quantity(estimate('swr2BandwidthHz')),
      point:
        resistance === null || resonance === null || radials === 0 || !guide
          ? null
          : {
              radials,
              lengthM: wireM / radials,
              resonanceHz: resonance.value,
              resistanceOhm: resistance.value,
              resistanceUncertaintyOhm: resistance.apart.standardUncertainty(),
              reactanceUncertaintyOhm: reactanceUncertainty(resistance, resonance, quality),
            },
    },
  };
}

/** The slope of X through zero is 2QR/f, so that an error of the resonance is one of X there. */
function reactanceUncertainty(r: SideEstimate, f: SideEstimate, q: SideEstimate | null): number {
  const slope = (2 * (q?.value ?? 0) * r.value) / f.value;
  return slope * f.apart.standardUncertainty();
}

function gainAgainst(first: SideEstimate | null, now: SideEstimate | null): Quantity {
  const value = resistanceGain(first?.value ?? null, now?.value ?? null);
  if (first === null || now === null || value === null) return UNKNOWN;
  if (first === now) return { value: 0, expandedUncertainty: 0, coverageFactor: 2 };
  const relative = Math.hypot(
    first.apart.standardUncertainty() / first.value,
    now.apart.standardUncertainty() / now.value,
  );
  const factor = coverageFactor(Math.min(first.apart.degreesOfFreedom(), now.apart.degreesOfFreedom()));
  return { value, expandedUncertainty: (factor * 10 * relative) / Math.LN10, coverageFactor: factor };
}
