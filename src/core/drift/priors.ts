import type { CauseName } from './cause.ts';
import type { ModelError } from './shape-covariance.ts';

/**
 * Prior probabilities, for someone who looks because something seems different: unchanged far more often than any one
 * fault, and the faults nearly alike.
 */
export const PRIOR: Readonly<Record<CauseName, number>> = {
  none: 0.45,
  'soil-moisture': 0.1,
  'series-joint': 0.1,
  'lost-radials': 0.08,
  'element-length': 0.08,
  feedline: 0.07,
  intermittent: 0.07,
  instrument: 0.05,
};

/** Without sweeps of the reference load, `instrument` is thought of half as often: nothing could confirm it. */
export const INSTRUMENT_UNSEEN = 0.5;

/**
 * Nor is it told more surely than this without them: a change that only a free error box explains may as well be one
 * that no cause here describes. What is above is shared among the other causes by their priors.
 */
export const INSTRUMENT_UNSEEN_MOST = 0.9;

/**
 * Share of `intermittent` that swings from shot to shot when there is only one shot since: it would look like a joint,
 * and is told as one until a second shot shows the swing.
 */
export const SWING_UNSEEN = 0.15;

/** Share of `series-joint` in which a bad joint was in the baseline, and has been cleaned, or has dried, since. */
export const JOINT_MENDED = 0.1;

/**
 * Added to `intermittent` where such a fault went by itself before: a contact that holds still through a visit looks like a
 * joint, and is then thought of nearly as often. Our own choice.
 */
export const RECURRING = 1;

/** How far the models of a site may be off. */
export interface ModelTrust {
  /** In shape, relative to the effect. */
  readonly errors: readonly ModelError[];
  /** In size, relative to the effect: a standard uncertainty of amplitudes that ground and radiator set the scale of. */
  readonly scaleError: number;
  /**
   * Probability that what happened is like none of the models, so that their evidence says nothing and the prior stands.
   * It keeps an answer from being nearly certain that is right nine times in ten.
   */
  readonly unlike: number;
}

/** The same for resistance in series and for loss in a line, which the site's figures hardly touch. */
export const DIRECT_SCALE_ERROR = 0.03;

/** Causes whose amplitude is told in the site's own measure. */
export const SCALED_BY_SITE: ReadonlySet<CauseName> = new Set([
  'soil-moisture',
  'lost-radials',
  'element-length',
]);

/**
 * For a site whose figures describe the healthy sweeps. One per cent costs nothing where the models hold, and takes a third
 * off the log loss where the antenna follows other physics.
 */
export const KNOWN_SITE: ModelTrust = {
  errors: [
    { relative: 0.03, weight: 0.55 },
    { relative: 0.1, weight: 0.35 },
    { relative: 0.25, weight: 0.1 },
  ],
  scaleError: 0.03,
  unlike: 0.01,
};

/**
 * For a site that is guessed, or that its figures do not describe. That 5 % are unlike was found to lower the log loss of
 * two unlike generators of cases alike; wider shapes instead cost right answers.
 */
export const GUESSED_SITE: ModelTrust = {
  errors: [
    { relative: 0.08, weight: 0.4 },
    { relative: 0.2, weight: 0.4 },
    { relative: 0.4, weight: 0.2 },
  ],
  scaleError: 0.15,
  unlike: 0.05,
};
