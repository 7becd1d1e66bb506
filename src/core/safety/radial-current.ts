import { wavenumberPerM } from '../ground/free-space.ts';
import { ON_SOIL_VELOCITY_FACTOR } from '../ground/wire-velocity.ts';
import { LEAST_RADIAL_SINE, type Radiator } from './arrangement.ts';

/** Radials that lie on or in the ground. */
export interface GroundedRadials {
  readonly count: number;
  readonly lengthM: number;
  readonly radiusM: number;
}

/**
 * Least current at the base of an element longer than a quarter wave, over that at its loop. The sinusoid has none at
 * the base of a half wave; a real one has what its feed resistance of a few kilohms lets in, about 0.2. Our own floor,
 * on the careful side: with a loop resistance of 100 ohm it stands for a feed resistance of 1.1 kilohm.
 */
const LEAST_BASE_SHARE = 0.3;

/** Current at the base over that at the element's loop. */
export function baseShare({ heightM }: Pick<Radiator, 'heightM'>, frequencyHz: number): number {
  const lengthRad = wavenumberPerM(frequencyHz) * heightM;
  const sine = Math.abs(Math.sin(lengthRad));
  return lengthRad > Math.PI / 2 ? Math.max(sine, LEAST_BASE_SHARE) : sine;
}

/** What of the current at the base the sinusoid leaves out, over the loop current. */
export function missingBaseShare({ heightM }: Pick<Radiator, 'heightM'>, frequencyHz: number): number {
  return baseShare({ heightM }, frequencyHz) - Math.abs(Math.sin(wavenumberPerM(frequencyHz) * heightM));
}

/** Current at the loop of each radial on the ground for a current at the element's loop, in the same sense, A. */
export function groundedLoopA(
  radiator: Radiator,
  { count, lengthM }: GroundedRadials,
  frequencyHz: number,
  loopA: number,
): number {
  const k = wavenumberPerM(frequencyHz);
  const baseA = loopA * baseShare(radiator, frequencyHz);
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
