import { firstOrder } from './first-order.ts';
import type { FigureDifference, Pair, SharedVisit } from './pair.ts';
import { CONFIDENCE, studentQuantile } from './student.ts';

/** How large a difference must be, or how many shots it needs, to be shown nine times in ten. */
export interface WhatWouldShow {
  /** Smallest true difference that this pair would have shown nine times in ten; null when it cannot be told. */
  readonly smallestDifference: number | null;
  /** Shots a visit that would show the difference at hand; null where no number would. */
  readonly shotsAVisit: number | null;
  /** Visits to each state, of as many shots as these, that would show the difference at hand. */
  readonly visitsAState: number | null;
  /** True where what is not known of the soil between the sides hides the difference at hand by itself. */
  readonly isHiddenBySoil: boolean;
}

const POWER = 0.9;
const SHOTS_AT_MOST = 50;
const VISITS_AT_MOST = 100;

/**
 * Plans the next measurement from this one. Shots of one visit share its calibration and connector, so that
 * beyond some number they show nothing more and only another visit does.
 *
 * @param alphaShare - the level of the test is divided by this, for the other differences judged beside it
 */
export function whatWouldShow(pair: Pair, found: FigureDifference | null, alphaShare = 1): WhatWouldShow {
  const value = found?.difference.value ?? null;
  if (found === null || value === null) {
    return { smallestDifference: null, shotsAVisit: null, visitsAState: null, isHiddenBySoil: false };
  }
  const standard = found.standardUncertainty;
  const factor = shownFactor(found.degreesOfFreedom, alphaShare);
  const size = Math.abs(value);
  const shared = sharedVariance(pair);
  const left = (size / factor) ** 2 - shared;
  return {
    smallestDifference: factor * standard,
    shotsAVisit: shotsAVisit(pair, size, alphaShare),
    visitsAState:
      left > 0 ? upTo(VISITS_AT_MOST, Math.max(1, Math.ceil((standard ** 2 - shared) / left))) : null,
    isHiddenBySoil: pair.correction.variance >= (size / factor) ** 2,
  };
}

/** Variance that all visits of a side share, so that it does not average out: a line's wrong constants, and the soil. */
function sharedVariance({ correction, common }: Pair): number {
  return common.reduce((sum, { before, after }) => sum + (after - before) ** 2, correction.variance);
}

function shotsAVisit(pair: Pair, size: number, alphaShare: number): number | null {
  for (let shotCount = 2; shotCount <= SHOTS_AT_MOST; shotCount++) {
    const withShots = (shared: SharedVisit): SharedVisit => ({
      ...shared,
      visit: { ...shared.visit, shotCount },
    });
    const { before, after } = pair.sides;
    const sides = { before: before.map(withShots), after: after.map(withShots) };
    const imagined = firstOrder({ ...pair, sides });
    if (imagined === null) return null;
    const factor = shownFactor(imagined.degreesOfFreedom, alphaShare);
    if (size >= factor * imagined.standardUncertainty) return shotCount;
  }
  return null;
}

/** Standard uncertainties between zero and a difference that is shown nine times in ten. */
function shownFactor(degreesOfFreedom: number, alphaShare: number): number {
  const level = 1 - (1 - CONFIDENCE) / alphaShare / 2;
  return studentQuantile(level, degreesOfFreedom) + studentQuantile(POWER, degreesOfFreedom);
}

function upTo(most: number, count: number): number | null {
  return Number.isFinite(count) && count <= most ? count : null;
}
