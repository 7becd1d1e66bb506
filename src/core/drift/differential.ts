import type { MeasuredVisit } from '../record.ts';
import type { Site } from '../site.ts';
import type { FeedLine } from '../sweep/feed-line.ts';
import { DEFAULT_REFERENCE_OHM } from '../sweep/sweep.ts';
import { type AntennaState, antennaState } from './antenna-state.ts';
import { type Baseline, baselineOf } from './baseline.ts';
import type { CauseModel } from './cause.ts';
import { elementLength } from './causes/element-length.ts';
import { feedline } from './causes/feedline.ts';
import { instrument } from './causes/instrument.ts';
import { heldContact, intermittent } from './causes/intermittent.ts';
import { CLUSTERINGS, lostRadials } from './causes/lost-radials.ts';
import { noChange } from './causes/none.ts';
import { seriesJoint } from './causes/series-joint.ts';
import { soilMoisture, soilShapes } from './causes/soil-moisture.ts';
import type { Factor } from './cholesky.ts';
import { differenceOf } from './columns.ts';
import { boxShapes, connectionShapes } from './connection-shapes.ts';
import { type Evidence, evidenceOf, logSum, prepareCause } from './evidence.ts';
import { fitAntenna, POOR_MISFIT } from './fit-antenna.ts';
import { groundTable } from './ground-table.ts';
import type { NoteEvidence } from './notes.ts';
import { observe } from './observation.ts';
import { asMeasured, planeOf } from './plane.ts';
import { amplitudeOf, normalise, type WeighedCause } from './posterior.ts';
import {
  DIRECT_SCALE_ERROR,
  GUESSED_SITE,
  INSTRUMENT_UNSEEN,
  JOINT_MENDED,
  KNOWN_SITE,
  PRIOR,
  RECURRING,
  SCALED_BY_SITE,
  SWING_UNSEEN,
} from './priors.ts';
import { type ReferenceLoad, referenceLoad } from './reference-load.ts';
import { covarianceOfChange, type ScatterSize, type WeightedScatter, weighScatter } from './scatter.ts';
import { usableRange } from './usable-range.ts';

/** Two groups of visits to be compared. */
export interface Comparison {
  readonly before: readonly MeasuredVisit[];
  readonly after: readonly MeasuredVisit[];
  readonly referenceBefore: readonly MeasuredVisit[];
  readonly referenceAfter: readonly MeasuredVisit[];
  readonly site: Site | null;
  /** What all sweeps have been moved through to the feed point; none where they were taken there. */
  readonly line?: FeedLine | null;
  /** What was read off meters since the healthy days; none for loose files. */
  readonly notes?: NoteEvidence;
}

/** The causes as the model weighs them, with what it weighed them by. */
export interface Differential {
  /** Likeliest first; probabilities sum to 1. */
  readonly causes: readonly WeighedCause[];
  readonly baseline: Baseline;
  readonly state: AntennaState;
  readonly scatter: ScatterSize;
  readonly load: ReferenceLoad | null;
}

/**
 * Posterior probability of every cause of the change between two groups of visits.
 *
 * The change of the mean reflection curve is compared with what each cause would do to this antenna, at the plane where
 * it was measured (see {@link Plane}), by the probability of the data under the cause: its amplitude integrated
 * numerically over the prior that its model states, further parameters and the model's own error as Gaussian shapes
 * (first order), and the sizes of the ordinary scatter averaged over a ladder, weighed by their prior and by how the
 * visits before and after differ among themselves (see {@link weighScatter}). This is the evidence itself, not an
 * approximation by BIC, which errs for small changes. The priors of the causes stand in `priors.ts`; how the posterior
 * treats amplitudes near zero and an unseen reference load, at {@link normalise}.
 *
 * Limits: one cause at a time; a change that no cause describes still gets shared out among them.
 *
 * @throws UserError `visits-missing`, `visits-apart`
 */
export function differentiate(comparison: Comparison): Differential {
  const { line, site } = comparison;
  const { before, after, guess } = usableRange(comparison.before, comparison.after, site);
  const plane = planeOf(before[0]?.shots[0]?.referenceOhm ?? DEFAULT_REFERENCE_OHM, line ?? null);
  const baseline = baselineOf(observe(asMeasured(before, plane.line), asMeasured(after, plane.line), plane));
  const { frequencyHz, position, spans } = baseline;
  const ground = groundTable(guess, { frequencyHz, spans });
  const fitted = fitAntenna(guess, ground, baseline);
  const state = antennaState(baseline, fitted, ground);

  const shapes = { soil: soilShapes(state), connection: connectionShapes(baseline) };
  const scatters = weighScatter(baseline, shapes);
  const likeliest = scatters.reduce((a, b) => (b.logWeight + b.logAfter > a.logWeight + a.logAfter ? b : a));
  const ordinary = likeliest.size.connection;
  const load = referenceLoad(
    asMeasured(comparison.referenceBefore, plane.line),
    asMeasured(comparison.referenceAfter, plane.line),
    ordinary,
    plane,
  );

  const severalShots = spans.some((span) => span.shotsOfAfter > 1);
  const models: readonly (readonly [model: CauseModel, share: number])[] = [
    [noChange(state), 1],
    [soilMoisture(state), 1],
    [seriesJoint(state, 1), 1 - JOINT_MENDED],
    [seriesJoint(state, -1), JOINT_MENDED],
    ...CLUSTERINGS.map(([clustering, weight]) => [lostRadials(state, clustering), weight] as const),
    [elementLength(state), 1],
    [feedline(state), 1],
    [intermittent(state, baseline, shapes, 0), severalShots ? 0.5 : SWING_UNSEEN],
    [intermittent(state, baseline, shapes, 1), 0.5],
    ...(comparison.notes?.isRecurring === true ? [[heldContact(state), RECURRING] as const] : []),
    [
      instrument(state, boxShapes(shapes.connection), load, load?.ordinary ?? ordinary),
      load === null ? INSTRUMENT_UNSEEN : 1,
    ],
  ];
  const { antenna, radials } = guess.known;
  const { errors, scaleError, unlike } =
    antenna && radials && fitted.misfit <= POOR_MISFIT ? KNOWN_SITE : GUESSED_SITE;
  const change = differenceOf(baseline.after, baseline.before);
  const covariance = covarianceOfChange(baseline, shapes);
  const factors = scatters.map(({ size }) => covariance(size));
  const first = factors[scatters.indexOf(likeliest)] as (typeof factors)[0];
  const weighed = models.map(([model, share]) => {
    const logAfterOf =
      ({ size, logAfter }: WeightedScatter) =>
      (amplitude: number): number =>
        model.logAfter === undefined ? logAfter : model.logAfter(amplitude, size);
    const prepared = prepareCause(model, change, position, first, errors, logAfterOf(likeliest));
    const each = scatters.map((scatter, i) =>
      evidenceOf(prepared, factors[i] as Factor, errors, logAfterOf(scatter)),
    );
    const logWeights = scatters.map(({ logWeight }, i) => logWeight + (each[i] as Evidence).logEvidence);
    const noted = comparison.notes?.logFactor[model.cause] ?? 0;
    const logPosterior = Math.log(PRIOR[model.cause] * share) + noted + logSum(logWeights);
    return {
      model,
      logPosterior,
      amplitude: amplitudeOf(
        each,
        scatters.map((entry) => entry.logWeight),
        SCALED_BY_SITE.has(model.cause) ? scaleError : DIRECT_SCALE_ERROR,
      ),
    };
  });
  return {
    causes: normalise(weighed, load !== null, unlike),
    baseline,
    state,
    scatter: likeliest.size,
    load,
  };
}
