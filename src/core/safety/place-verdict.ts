import type { LotPlace, Point } from '../site.ts';
import { UserError } from '../user-error.ts';
import { type Basis, DISTANCE_STEPS_PER_M } from './allowed-power.ts';
import { allowedAt, type ExposureCase } from './band-exposure.ts';
import { NEAREST_M, personAt } from './exposure-profile.ts';
import { ARMS_REACH_M } from './keep-off.ts';
import { roundDown } from './rounding.ts';

/**
 * - `clear`: within the chosen limits at this power.
 * - `reduce power`: over them; the place comes within them at `maxPowerW`, which is at least a watt.
 * - `keep out`: bare live wire is within arm's reach, or less than a watt would be allowed. Nobody stays here
 *   while you send.
 */
export type Verdict = 'clear' | 'reduce power' | 'keep out';

export interface PlaceExposure {
  readonly name: string;
  /** From the base over the ground, rounded down to a tenth of a metre. */
  readonly distanceM: number;
  readonly heightM: number;
  readonly verdict: Verdict;
  /** Peak power of this mode and on-air fraction up to which the place is within the limits, rounded down; 0: none. */
  readonly maxPowerW: number;
  readonly basis: Basis | 'arm’s reach';
  /** To the nearest known end of a radial on the ground, rounded down; null where none is known. */
  readonly nearestEndM: number | null;
}

/** Below this no useful power is left: the place is one to keep out of, W. */
const LEAST_USEFUL_POWER_W = 1;

/**
 * The verdict on one place for one transmission. More power, a stricter limit or a shorter distance never turns a
 * worse verdict into a better one: the allowed power falls with each, and touch does not ask for power.
 *
 * @param bareEnds - whether known ends of radials count as bare live wire
 * @throws UserError `place-inside-antenna`
 */
export function placeVerdict(
  place: LotPlace,
  field: string,
  base: Point,
  exposure: ExposureCase,
  bareEnds: boolean,
): PlaceExposure {
  const [east, north] = [place.at[0] - base[0], place.at[1] - base[1]];
  const exactM = Math.hypot(east, north);
  const insideM = Math.max(NEAREST_M, ...exposure.stations.map(({ radiator }) => radiator.radiusM));
  if (exactM < insideM) {
    throw new UserError(
      'place-inside-antenna',
      `"${place.name}" lies on the antenna itself: move it off the base`,
      {
        place: { field },
      },
    );
  }
  const distanceM = roundDown(exactM, DISTANCE_STEPS_PER_M);
  const endM = nearestM(exposure.radiator.knownEnds, east, north);
  const touchesEnd = bareEnds && place.heightM < ARMS_REACH_M && endM !== null && endM < ARMS_REACH_M;
  const allowed = touchesEnd ? null : allowedAt(exposure, personAt(place.heightM), distanceM);
  const maxPowerW = allowed?.peakPowerW ?? 0;
  return {
    name: place.name,
    distanceM,
    heightM: place.heightM,
    verdict: verdictFor(exposure.transmission.peakPowerW, maxPowerW),
    maxPowerW,
    basis: allowed?.basis ?? 'arm’s reach',
    nearestEndM: endM === null ? null : roundDown(endM, DISTANCE_STEPS_PER_M),
  };
}

/** @param maxPowerW - the largest power within the limits, 0 within touch */
export function verdictFor(peakPowerW: number, maxPowerW: number): Verdict {
  if (peakPowerW <= maxPowerW) return 'clear';
  return maxPowerW < LEAST_USEFUL_POWER_W ? 'keep out' : 'reduce power';
}

function nearestM(ends: readonly Point[], east: number, north: number): number | null {
  return ends.length === 0 ? null : Math.min(...ends.map(([e, n]) => Math.hypot(e - east, n - north)));
}
