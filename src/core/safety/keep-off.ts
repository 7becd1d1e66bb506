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

/** How far a person reaches upwards from where they stand, m; the same source. */
const REACH_UP_M = 2.5;

/**
 * The least horizontal distance from the base at which no part of the antenna can be touched, m, for people
 * within a span of heights: arm's reach from the element, and from the tips of elevated radials where those hang
 * low enough to be reached.
 */
export function touchDistanceM(radiator: SiteRadiator, heights: HeightSpan, frequencyHz: number): number {
  const { elevated, baseHeightM } = radiator.at(frequencyHz);
  if (elevated === null) return ARMS_REACH_M;
  const inReach =
    baseHeightM >= heights.fromM - ARMS_REACH_M && baseHeightM <= heights.toM + REACH_UP_M - PERSON_HEIGHT_M;
  return inReach ? elevated.lengthM + ARMS_REACH_M : ARMS_REACH_M;
}
