import type { Baseline } from './baseline.ts';
import type { CauseName } from './cause.ts';
import { type Comparison, type Differential, differentiate } from './differential.ts';
import { evidenceFor, hasLoadMoved } from './evidence-text.ts';
import { AFTER_LOAD_MOVED, checkBetween, checkOf } from './garden-checks.ts';
import { limitsOf } from './limits-text.ts';
import { NO_NOTES } from './notes.ts';
import type { WeighedCause } from './posterior.ts';
import { meanFeatures, type VisitFeatures, visitFeatures } from './visit-features.ts';

/** A cause as it is told. */
export interface DiagnosedCause {
  readonly cause: CauseName;
  readonly probability: number;
  readonly estimate: Estimate | null;
  readonly evidence: readonly string[];
  readonly checkFirst: string;
}

/** Value with expanded uncertainty (coverage factor 2), given that this is the cause. */
export interface Estimate {
  readonly name: string;
  readonly value: number;
  readonly unit: string;
  readonly expandedUncertainty: number;
}

/** A range of frequency that visits before and after share. */
export interface WeighedRange {
  readonly fromHz: number;
  readonly toHz: number;
  readonly visitsBefore: number;
  readonly visitsAfter: number;
}

/** What changed between two sides, and what cannot be told of it. */
export interface Diagnosis {
  /** Likeliest first; probabilities sum to 1. */
  readonly causes: readonly DiagnosedCause[];
  readonly before: VisitFeatures;
  readonly after: VisitFeatures;
  /** The ranges of frequency that were weighed, rising, and how many visits show each. */
  readonly ranges: readonly WeighedRange[];
  /** What this comparison cannot tell, in sentences. */
  readonly cannotTell: readonly string[];
}

/** Without a rival above this there is none to separate: the check that confirms the top cause comes first. */
const RIVAL = 0.03;

/**
 * What most likely changed between two groups of visits, how sure, and which check comes first.
 * See {@link differentiate} for the method.
 *
 * @throws UserError `visits-missing`, `visits-apart`
 */
export function diagnose(comparison: Comparison): Diagnosis {
  const differential = differentiate(comparison);
  const before = meanFeatures(comparison.before.map((visit) => visitFeatures(visit)));
  const nearHz = before.resonanceHz;
  const since = comparison.after.map((visit) => visitFeatures(visit, nearHz));
  const after = meanFeatures(since);
  const { causes, load } = differential;
  const notes = comparison.notes ?? NO_NOTES;
  // What the first check of a cause would read is known already: what comes after it comes first.
  const settled =
    load !== null && hasLoadMoved(load) ? { ...notes.checks, instrument: AFTER_LOAD_MOVED } : notes.checks;
  const [top, second] = causes as [WeighedCause, WeighedCause];
  return {
    causes: causes.map((weighed) => ({
      cause: weighed.cause,
      probability: weighed.probability,
      estimate: estimateOf(weighed, differential),
      evidence: [
        ...evidenceFor(weighed.cause, differential, before, after, since),
        ...notes.sentences
          .filter(({ causes: named }) => named.includes(weighed.cause))
          .map(({ text }) => text),
      ],
      checkFirst:
        settled[weighed.cause] ??
        (weighed === top && second.probability < RIVAL
          ? checkOf(top.cause)
          : checkWithReason(weighed.cause, weighed === top ? second.cause : top.cause)),
    })),
    before,
    after,
    ranges: rangesOf(differential.baseline),
    cannotTell: limitsOf(differential),
  };
}

function rangesOf({ spans }: Baseline): WeighedRange[] {
  return spans
    .map(({ fromHz, toHz, visitsBefore, visitsAfter }) => ({ fromHz, toHz, visitsBefore, visitsAfter }))
    .sort((a, b) => a.fromHz - b.fromHz);
}

function checkWithReason(cause: CauseName, rival: CauseName): string {
  const { tests, check } = checkBetween(cause, rival);
  return `${check} (a test of ${tests}: the cheapest way to tell ${cause} from ${rival})`;
}

function estimateOf({ cause, model, amplitude }: WeighedCause, { load }: Differential): Estimate | null {
  if (model.estimate === null || !Number.isFinite(amplitude.mean)) return null;
  const { mean, sd } = amplitude;
  if (cause === 'soil-moisture') {
    return { ...model.estimate, value: Math.exp(mean), expandedUncertainty: 2 * sd * Math.exp(mean) };
  }
  if (cause === 'instrument') {
    return load === null
      ? null
      : { ...model.estimate, value: load.changeOfSize, expandedUncertainty: 2 * load.standardUncertainty };
  }
  return { ...model.estimate, value: mean, expandedUncertainty: 2 * sd };
}
