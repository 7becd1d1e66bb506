import { type HeightSpan, PERSON_HEIGHT_M } from './exposure-profile.ts';
import { roundUp } from './rounding.ts';
import type { SiteRadiator } from './site-radiator.ts';

/**
 * How far a person reaches sideways without aid, m: the least distance from bare live wire, at any power.
 * Source: IEC 60364-4-41, zone of arm's reach (1.25 m sideways, 2.5 m upwards), memory; it is written for mains
 * installations and borrowed here, since no published distance for touching an antenna was found.
 */
export const ARMS_REACH_M = 1.25;

/** Arm's reach as it is told, rounded up to a tenth of a metre. */
export const TOUCH_DISTANCE_M: number = roundUp(ARMS_REACH_M, 10);

/** How far a person reaches upwards from where they stand, m; the same source. Wire at just this height is reached. */
export const REACH_UP_M = 2.5;

/**
 * Whether a person within a span of heights can touch a wire, if they are near enough sideways.
 *
 * @param wireHeightM - at which it runs; where that is not known, from there to `upToM`
 */
export function withinReach(heights: HeightSpan, wireHeightM: number, upToM: number = wireHeightM): boolean {
  const standsAtM = heights.toM - PERSON_HEIGHT_M;
  return upToM >= heights.fromM - ARMS_REACH_M && wireHeightM <= standsAtM + REACH_UP_M;
}

/**
 * The least horizontal distance from the base at which no part of the antenna can be touched, m, for people
 * within a span of heights: arm's reach from the element, and from the tips of elevated radials where those hang
 * low enough to be reached and may point anywhere.
 */
export function touchDistanceM(radiator: SiteRadiator, heights: HeightSpan, frequencyHz: number): number {
  const { unplacedCount, radialHeights } = radiator;
  const allPlaced = unplacedCount === 0;
  if (allPlaced || !withinReach(heights, radialHeights.fromM, radialHeights.toM)) return ARMS_REACH_M;
  const lengthsM = radiator.at(frequencyHz).map(({ elevated }) => elevated?.lengthM ?? 0);
  return Math.max(...lengthsM) + ARMS_REACH_M;
}
