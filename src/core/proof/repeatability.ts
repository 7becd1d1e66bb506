import { oneWayVariance } from './analysis-of-variance.ts';
import type { Measure } from './figures.ts';
import { mean } from './summary.ts';
import type { VisitInBand } from './visit-in-band.ts';
import type { Component } from './welch.ts';

/**
 * How well a figure repeats, as the error of reflection that would scatter it as much: so visits at 80 ohm and
 * at 40 ohm can be pooled, although an equal error moves their resistances differently.
 */
export interface Repeatability {
  /** Of one shot. */
  readonly shot: Component | null;
  /** Of one visit, on top of its shots, from visits of one field state; it holds soil and connector too. */
  readonly visit: Component | null;
}

/**
 * Pools the scatter of shots within visits, and of visits within field states, by analysis of variance.
 *
 * @param states - the visits of each field state
 * @param explained - what of a figure the circumstances of its visit explain (moisture), to be taken off first; a visit of
 *   which it is not known is left out
 */
export function poolRepeatability<T extends VisitInBand>(
  states: readonly (readonly T[])[],
  measure: Measure,
  explained: ((visit: T) => number | null) | null = null,
): Repeatability {
  let within = 0;
  let withinDf = 0;
  let between = 0;
  let betweenDf = 0;
  let shots = 0;
  let visits = 0;
  for (const state of states) {
    const groups = equivalents(state, measure, explained);
    if (groups.length === 0) continue;
    const table = oneWayVariance(groups);
    within += table.withinSumOfSquares;
    withinDf += table.withinDf;
    between += table.betweenSumOfSquares;
    betweenDf += table.betweenDf;
    shots += groups.reduce((sum, group) => sum + group.length, 0);
    visits += groups.length;
  }
  // The slope behind what is explained was taken from the same visits.
  if (explained !== null) betweenDf = Math.max(0, betweenDf - 1);
  const shotVariance = withinDf > 0 ? within / withinDf : 0;
  const visitVariance = Math.max(0, between / betweenDf - shotVariance) / (shots / visits);
  return {
    shot: withinDf > 0 ? { variance: shotVariance, degreesOfFreedom: withinDf } : null,
    visit: betweenDf > 0 ? { variance: visitVariance, degreesOfFreedom: betweenDf } : null,
  };
}

/** The shots of each visit as errors of reflection about the mean of the state. */
function equivalents<T extends VisitInBand>(
  state: readonly T[],
  measure: Measure,
  explained: ((visit: T) => number | null) | null,
): number[][] {
  const gains = state.map((visit) => visit.sensitivity(measure)?.gain ?? 0).filter((gain) => gain > 0);
  if (gains.length === 0) return [];
  const gain = mean(gains);
  const values = state
    .map((visit) => {
      const off = explained === null ? 0 : explained(visit);
      if (off === null) return [];
      return visit.shotFigures(measure).flatMap((figure) => (figure === null ? [] : [figure - off]));
    })
    .filter((group) => group.length > 0);
  const centre = mean(values.flat());
  return values.map((group) => group.map((value) => (value - centre) / gain));
}
