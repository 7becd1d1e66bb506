import type { ExposureCase } from './band-exposure.ts';
import {
  DIPOLE_GAIN,
  FULL_REFLECTION,
  farFieldDistanceM,
  nearFieldBoundaryM,
  PRACTICAL_REFLECTION,
} from './far-field.ts';
import { limitsAt } from './limits.ts';
import { roundUp } from './rounding.ts';

/** To the millimetre: whoever tells one rounds up once more, in the unit that is shown. */
const STEPS_PER_M = 1000;

/** The far-field form beside the fields, and when it holds. */
export interface RuleOfThumb {
  /** λ/2π at the lowest frequency, rounded up, m: nearer than this the form is no more than an indication. */
  readonly validFromM: number;
  /** Distances by power density with a power factor of 4, and of 2.56, rounded up, m; null where the set has no such level. */
  readonly fullReflectionM: number | null;
  readonly practicalReflectionM: number | null;
}

/**
 * The power-density distance of a transmission, for comparison. The gain is the antenna's in free space: half of
 * that over perfect ground, where the power goes into half the space, and never under the half-wave dipole's.
 */
export function ruleOfThumb({ stations, limits, transmission, averageShare }: ExposureCase): RuleOfThumb {
  const meanW = transmission.peakPowerW * averageShare;
  const distanceM = (reflection: number): number | null => {
    const distances = stations.map((station) => {
      const level = limitsAt(limits, station.frequencyHz).averaged.powerDensityWPerM2;
      return level === null ? null : farFieldDistanceM(meanW, freeSpaceGain(station.gain), level, reflection);
    });
    const told = distances.filter((distance) => distance !== null);
    return told.length < distances.length ? null : roundUp(Math.max(...told), STEPS_PER_M);
  };
  return {
    validFromM: roundUp(
      Math.max(...stations.map(({ frequencyHz }) => nearFieldBoundaryM(frequencyHz))),
      STEPS_PER_M,
    ),
    fullReflectionM: distanceM(FULL_REFLECTION),
    practicalReflectionM: distanceM(PRACTICAL_REFLECTION),
  };
}

/** Gain in free space of what has this gain over perfect ground, at least a half-wave dipole's. */
export function freeSpaceGain(gainOverGround: number): number {
  return Math.max(DIPOLE_GAIN, gainOverGround / 2);
}
