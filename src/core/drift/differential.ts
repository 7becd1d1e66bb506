import type { MeasuredVisit } from '../record.ts';
import type { Site } from '../site.ts';
import { type AntennaGuess, guessAntenna } from './antenna-guess.ts';
import { type AntennaState, antennaState } from './antenna-state.ts';
import { type Baseline, baselineOf } from './baseline.ts';
import type { CauseModel, CauseName } from './cause.ts';
import { elementLength } from './causes/element-length.ts';
import { feedline } from './causes/feedline.ts';
import { instrument } from './causes/instrument.ts';
import { intermittent } from './causes/intermittent.ts';
import { lostRadials } from './causes/lost-radials.ts';
import { noChange } from './causes/none.ts';
import { seriesJoint } from './causes/series-joint.ts';
import { soilMoisture, soilShapes } from './causes/soil-moisture.ts';
import { differenceOf } from './columns.ts';
import { type Evidence, evidenceOf, logSum, prepareCause } from './evidence.ts';
import { fitAntenna, POOR_MISFIT } from './fit-antenna.ts';
import { groundTable } from './ground-table.ts';
import { withinModelRange } from './model-range.ts';
import type { NoteEvidence } from './notes.ts';
import { observe } from './observation.ts';
import { type ReferenceLoad, referenceLoad } from './reference-load.ts';
import { connectionShapes, covarianceOfChange, type ScatterSize, weighScatter } from './scatter.ts';
import { seenSize } from './seen-size.ts';
import type { ModelError } from './shape-covariance.ts';

/** Two groups of visits to be compared. */
export interface Comparison {
  readonly before: readonly MeasuredVisit[];
  readonly after: readonly MeasuredVisit[];
  readonly referenceBefore: readonly MeasuredVisit[];
  readonly referenceAfter: readonly MeasuredVisit[];
  readonly site: Site | null;
  /** What was read off meters since the healthy days; none for loose files. */
  readonly notes?: NoteEvidence;
}

/** A cause with its posterior. */
export interface WeighedCause {
  readonly cause: CauseName;
  readonly model: CauseModel;
  readonly probability: number;
  /** Posterior mean and standard deviation of the amplitude, given this cause. */
  readonly amplitude: { readonly mean: number; readonly sd: number };
}

export interface Differential {
  /** Likeliest first; probabilities sum to 1. */
  readonly causes: readonly WeighedCause[];
  readonly baseline: Baseline;
  readonly state: AntennaState;
  readonly scatter: ScatterSize;
  readonly load: ReferenceLoad | null;
}

/**
 * Prior probabilities, for someone who looks because something seems different: unchanged more often than any one
 * fault, and the faults nearly alike. `instrument` counts less without a reference load, since then it cannot be told.
 */
const PRIOR: Readonly<Record<CauseName, number>> = {
  none: 0.4,
  'soil-moisture': 0.1,
  'series-joint': 0.11,
  'lost-radials': 0.09,
  'element-length': 0.09,
  feedline: 0.08,
  intermittent: 0.08,
  instrument: 0.05,
};

/**
 * Share of `intermittent` that swings from shot to shot when there is only one shot since: it would look like a joint,
 * and is told as one until a second shot shows the swing.
 */
const SWING_UNSEEN = 0.15;

/** How far a fitted model's shape may be off, and for a site that is only guessed. */
const ERRORS_KNOWN: readonly ModelError[] = [
  { relative: 0.03, weight: 0.55 },
  { relative: 0.1, weight: 0.35 },
  { relative: 0.25, weight: 0.1 },
];
/** Standard uncertainty of a model's size, relative to its effect. */
const SCALE_ERROR_KNOWN = 0.03;
const SCALE_ERROR_GUESSED = 0.15;
const ERRORS_GUESSED: readonly ModelError[] = [
  { relative: 0.08, weight: 0.4 },
  { relative: 0.2, weight: 0.4 },
  { relative: 0.4, weight: 0.2 },
];

/**
 * Posterior probability of every cause of the change between two groups of visits.
 *
 * The change of the mean reflection curve is compared with what each cause would do to this antenna, by the probability
 * of the data under the cause: its amplitude integrated numerically over a stated prior, further parameters and the
 * model's own error as Gaussian shapes, and the size of the ordinary scatter averaged over its posterior after the
 * healthy visits. This is the evidence itself, not an approximation by BIC, which errs for small changes.
 *
 * Limits: one cause at a time; a change that no cause describes still gets shared out among them.
 *
 * @throws UserError `visits-missing`, `visits-apart`
 */
export function differentiate(comparison: Comparison): Differential {
  const { before, after, guess } = usable(comparison);
  const baseline = baselineOf(observe(before, after));
  const { frequencyHz, position, spans } = baseline;
  const ground = groundTable(guess, { frequencyHz, spans });
  const fitted = fitAntenna(guess, ground, frequencyHz, baseline.before, baseline.referenceOhm);
  const state = antennaState(baseline, fitted, ground);

  const shapes = { soil: soilShapes(state), connection: connectionShapes(baseline.before, position) };
  const scatters = weighScatter(baseline, shapes);
  const likeliest = scatters.reduce((a, b) => (b.logWeight > a.logWeight ? b : a));
  const ordinary = likeliest.size.connection;
  const load = referenceLoad(comparison.referenceBefore, comparison.referenceAfter, ordinary);

  const severalShots = spans.some((span) => span.shotsOfAfter > 1);
  const models: readonly (readonly [model: CauseModel, share: number])[] = [
    [noChange(state), 1],
    [soilMoisture(state), 1],
    [seriesJoint(state), 1],
    [lostRadials(state), 1],
    [elementLength(state), 1],
    [feedline(state), 1],
    [intermittent(state, baseline, shapes, scatters, 0), severalShots ? 0.5 : SWING_UNSEEN],
    [intermittent(state, baseline, shapes, scatters, 1), 0.5],
    [instrument(state, shapes.connection, load, ordinary), 1],
  ];
  const { antenna, radials } = guess.known;
  const errors = antenna && radials && fitted.misfit <= POOR_MISFIT ? ERRORS_KNOWN : ERRORS_GUESSED;
  const change = differenceOf(baseline.after, baseline.before);
  const factors = scatters.map(({ size }) => covarianceOfChange(baseline, shapes, size));
  const first = factors[scatters.indexOf(likeliest)] as (typeof factors)[0];
  const weighed = models.map(([model, share]) => {
    const prepared = prepareCause(model, change, position, first, errors);
    const each = factors.map((factor) => evidenceOf(prepared, factor, errors));
    const logWeights = scatters.map(({ logWeight }, i) => logWeight + (each[i] as Evidence).logEvidence);
    const noted = comparison.notes?.logFactor[model.cause] ?? 0;
    const logPosterior = Math.log(PRIOR[model.cause] * share) + noted + logSum(logWeights);
    return {
      model,
      logPosterior,
      amplitude: amplitudeOf(
        each,
        scatters.map((entry) => entry.logWeight),
        errors === ERRORS_KNOWN ? SCALE_ERROR_KNOWN : SCALE_ERROR_GUESSED,
      ),
    };
  });
  return { causes: normalise(weighed), baseline, state, scatter: likeliest.size, load };
}

/**
 * The part of the sweeps that the model can read. Where the site's height leaves none of it, near a half wave, the
 * antenna is taken for a quarter wave at its resonance instead.
 */
function usable({ before, after, site }: Comparison): {
  before: readonly MeasuredVisit[];
  after: readonly MeasuredVisit[];
  guess: AntennaGuess;
} {
  const seen = seenSize(before);
  const unhelped = site === null ? null : { ...site, antenna: { ...site.antenna, heightM: null } };
  for (const guess of [guessAntenna(site, seen), guessAntenna(unhelped, seen)]) {
    const cutBefore = withinModelRange(before, guess.heightM);
    const cutAfter = withinModelRange(after, guess.heightM);
    if (cutBefore !== null && cutAfter !== null) return { before: cutBefore, after: cutAfter, guess };
  }
  return { before, after, guess: guessAntenna(unhelped, seen) };
}

/** Mean and standard deviation over amplitudes and scatter sizes. */
function amplitudeOf(
  each: readonly Evidence[],
  logWeights: readonly number[],
  scaleError: number,
): { mean: number; sd: number } {
  const terms = each.flatMap(({ nodes }, i) =>
    nodes.map(({ amplitude, logMass }) => ({ amplitude, log: logMass + (logWeights[i] as number) })),
  );
  const total = logSum(terms.map((term) => term.log));
  let [mean, square] = [0, 0];
  for (const { amplitude, log } of terms) {
    const weight = Math.exp(log - total);
    mean += weight * amplitude;
    square += weight * amplitude * amplitude;
  }
  // A shape that is too large or too small by a constant factor is no other shape: it is an error of the amplitude.
  return { mean, sd: Math.hypot(Math.sqrt(Math.max(0, square - mean * mean)), scaleError * mean) };
}

type Weighed = { model: CauseModel; logPosterior: number; amplitude: { mean: number; sd: number } };

/** Adds up the variants of one cause, keeping the likelier variant's amplitude, and sorts. */
function normalise(weighed: readonly Weighed[]): WeighedCause[] {
  const total = logSum(weighed.map((entry) => entry.logPosterior));
  const byCause = new Map<CauseName, Weighed[]>();
  for (const entry of weighed) {
    byCause.set(entry.model.cause, [...(byCause.get(entry.model.cause) ?? []), entry]);
  }
  return [...byCause.entries()]
    .map(([cause, entries]) => {
      const best = entries.reduce((a, b) => (b.logPosterior > a.logPosterior ? b : a));
      const probability = Math.exp(logSum(entries.map((entry) => entry.logPosterior)) - total);
      return { cause, model: best.model, probability, amplitude: best.amplitude };
    })
    .sort((a, b) => b.probability - a.probability);
}
