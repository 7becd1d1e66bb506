import { wavenumberPerM } from '../ground/free-space.ts';
import { ON_SOIL_VELOCITY_FACTOR } from '../ground/wire-velocity.ts';
import { LEAST_RADIAL_SINE, type Radiator } from './arrangement.ts';

/** Radials that lie on or in the ground. */
export interface GroundedRadials {
  readonly count: number;
  readonly lengthM: number;
  readonly radiusM: number;
}

/** Current at the loop of each radial on the ground for a current at the element's loop, in the same sense, A. */
export function groundedLoopA(
  { heightM }: Radiator,
  { count, lengthM }: GroundedRadials,
  frequencyHz: number,
  loopA: number,
): number {
  const k = wavenumberPerM(frequencyHz);
  const baseA = loopA * Math.abs(Math.sin(k * heightM));
  return sharedLoopA(baseA, count, (k * lengthM) / ON_SOIL_VELOCITY_FACTOR.high);
}

/**
 * Current at the loop of each of equal radials that share the base current, A.
 *
 * @param lengthRad - electrical length of one
 */
export function sharedLoopA(baseA: number, count: number, lengthRad: number): number {
  return baseA / (count * Math.max(Math.abs(Math.sin(lengthRad)), LEAST_RADIAL_SINE));
}
