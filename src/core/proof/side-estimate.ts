import { Contributions } from './contributions.ts';
import type { Measure } from './figures.ts';
import { type SharedVisit, sideFigure, type VisitErrors } from './pair.ts';

/** One figure of one side: the weighted mean of its visits, and what makes it uncertain. */
export interface SideEstimate {
  readonly value: number;
  /** By itself. */
  readonly alone: Contributions;
  /** Against another side, where what all visits have wrong in common drops out. */
  readonly apart: Contributions;
}

/**
 * @returns null where the figure or its sensitivity cannot be had at one of the visits
 */
export function sideEstimate(
  measure: Measure,
  side: readonly SharedVisit[],
  errors: VisitErrors,
): SideEstimate | null {
  const value = sideFigure(measure, side);
  if (value === null) return null;
  const alone = new Contributions();
  const apart = new Contributions();
  for (const { visit, share, shot } of side) {
    const sensitivity = visit.sensitivity(measure);
    if (sensitivity === null) return null;
    const squaredGain = (share * sensitivity.gain) ** 2;
    for (const sum of [alone, apart]) {
      if (shot !== null) sum.add(shot, squaredGain / visit.shotCount);
      sum.addKnown((share * sensitivity.turn * errors.turnRad) ** 2);
      sum.addKnown((share * visit.gridUncertainty(measure)) ** 2);
    }
    alone.add(errors.visitAlone, squaredGain);
    apart.add(errors.visit, squaredGain);
  }
  return { value, alone, apart };
}
