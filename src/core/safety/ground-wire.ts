import { FREE_SPACE_IMPEDANCE_OHM } from '../ground/free-space.ts';
import type { ExposureProfile } from './exposure-profile.ts';

/**
 * Fields beside a wire on the ground: those of a long line with the wire's current loop and the charge that goes
 * with it, E = η₀·I/(2πr) = 60·I/r and H = I/(2πr), at any part of the wire and without the ground's image, which
 * lowers both. An upper figure, right to a factor of two or three.
 *
 * @param loopA - current at the wire's own loop
 */
export function groundWireProfile(loopA: number): ExposureProfile {
  return (distanceM) => {
    const magneticAPerM = loopA / (2 * Math.PI * distanceM);
    return { magneticAPerM, electricVPerM: FREE_SPACE_IMPEDANCE_OHM * magneticAPerM };
  };
}
