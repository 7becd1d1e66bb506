import type { ExposureProfile } from './exposure-profile.ts';
import type { LimitsAtFrequency } from './limits.ts';
import { DISTANCE_STEPS_PER_M, roundDownSignificant } from './rounding.ts';

/** What decides: the level that is met first, or touch, which does not ask for power. */
export type Basis =
  | 'arm’s reach'
  | 'electric field'
  | 'magnetic field'
  | 'electric field at peak power'
  | 'magnetic field at peak power';

/** One frequency of a band: the field it makes and what is allowed there. */
export interface FrequencyCase {
  readonly profile: ExposureProfile;
  readonly limits: LimitsAtFrequency;
  /** Loop current squared per watt into the antenna, A²/W, rms. */
  readonly currentSquaredPerW: number;
}

/** The most power that a distance allows, and what decides it. */
export interface AllowedPower {
  /** Peak envelope power at which the first level is met, rounded down to three digits. */
  readonly peakPowerW: number;
  readonly basis: Basis;
}

/**
 * The largest peak power that keeps every level at a distance from the element and beyond.
 *
 * Electric and magnetic field are held against their own levels, as the rules ask below 30 to 300 MHz; averaged
 * levels against the mean square (peak power × `averageShare`), momentary levels against peak power. The
 * strictest frequency of the band counts. It never falls with distance.
 *
 * @param averageShare - mean over peak power in the averaging window, 0 to 1
 */
export function allowedPower(
  cases: readonly FrequencyCase[],
  averageShare: number,
  distanceM: number,
): AllowedPower {
  let peakPowerW = Number.POSITIVE_INFINITY;
  let basis: Basis = 'electric field';
  const hold = (field: number, level: number | null, share: number, name: Basis): void => {
    if (level === null) return;
    const powerW = level ** 2 / (field ** 2 * share);
    if (powerW < peakPowerW) [peakPowerW, basis] = [powerW, name];
  };
  for (const { profile, limits, currentSquaredPerW } of cases) {
    const { electricVPerM, magneticAPerM } = profile(distanceM);
    const perAmpere = Math.sqrt(currentSquaredPerW);
    const electric = electricVPerM * perAmpere;
    const magnetic = magneticAPerM * perAmpere;
    hold(electric, limits.averaged.electricVPerM, averageShare, 'electric field');
    hold(magnetic, limits.averaged.magneticAPerM, averageShare, 'magnetic field');
    hold(electric, limits.instantaneous.electricVPerM, 1, 'electric field at peak power');
    hold(magnetic, limits.instantaneous.magneticAPerM, 1, 'magnetic field at peak power');
  }
  return { peakPowerW: roundDownSignificant(peakPowerW, 3), basis };
}

/** Within touch of live wire no power is allowed. */
export const WITHIN_TOUCH: AllowedPower = { peakPowerW: 0, basis: 'arm’s reach' };

/**
 * The least distance, on the grid, from which a peak power keeps every level; beyond {@link FARTHEST_ASKED_M}
 * it is not looked for.
 */
export function distanceForPowerM(
  cases: readonly FrequencyCase[],
  averageShare: number,
  peakPowerW: number,
): number {
  let tooNear = 0;
  let enough = FARTHEST_ASKED_M * DISTANCE_STEPS_PER_M;
  while (enough - tooNear > 1) {
    const middle = Math.floor((tooNear + enough) / 2);
    const allowed = allowedPower(cases, averageShare, middle / DISTANCE_STEPS_PER_M);
    if (allowed.peakPowerW >= peakPowerW) enough = middle;
    else tooNear = middle;
  }
  return enough / DISTANCE_STEPS_PER_M;
}

const FARTHEST_ASKED_M = 2000;
