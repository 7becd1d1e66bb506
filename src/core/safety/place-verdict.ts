import type { LotPlace, Point } from '../site.ts';
import { UserError } from '../user-error.ts';
import { type AllowedPower, allowedPower, type Basis, WITHIN_TOUCH } from './allowed-power.ts';
import { allowedAt, type ExposureCase } from './band-exposure.ts';
import { type HeightSpan, NEAREST_M, personAt } from './exposure-profile.ts';
import { TOUCH_DISTANCE_M, withinReach } from './keep-off.ts';
import { type NearWire, nearestEnd, nearestWire } from './nearest-wire.ts';
import { DISTANCE_STEPS_PER_M, roundDown } from './rounding.ts';
import type { SiteRadiator } from './site-radiator.ts';

/**
 * - `clear`: within the chosen limits at this power, and out of touch of live wire.
 * - `reduce power`: over them; the place comes within them at `maxPowerW`, which is at least a watt.
 * - `keep out`: live wire or the open end of one is within arm's reach, or less than a watt would be allowed.
 *   Nobody stays here while you send.
 */
export type Verdict = 'clear' | 'reduce power' | 'keep out';

/** What one place gets of one transmission. */
export interface PlaceExposure {
  readonly name: string;
  /** From the base over the ground, rounded down to a tenth of a metre. */
  readonly distanceM: number;
  readonly heightM: number;
  readonly verdict: Verdict;
  /** Peak power of this mode and on-air fraction up to which the place is within the limits, rounded down; 0: none. */
  readonly maxPowerW: number;
  readonly basis: Basis;
  /** The radial that decides; null where the antenna as a whole does. */
  readonly decidingRadial: number | null;
  /** The nearest known open end of a radial, rounded down; null where none is known. */
  readonly nearestEnd: NearWire | null;
  /** The nearest known part of such a radial. */
  readonly nearestWire: NearWire | null;
  /** Whether a radial of which nobody knows where it lies may end within arm's reach; the verdict leaves it out. */
  readonly unplacedMayReach: boolean;
}

/** Below this no useful power is left: the place is one to keep out of, W. */
const LEAST_USEFUL_POWER_W = 1;

/**
 * The verdict on one place for one transmission: the least of what the fields of the antenna, the fields beside
 * the nearest radial on the ground, and touch of that radial allow. More power, a stricter limit or a shorter
 * distance never turns a worse verdict into a better one: the allowed power falls with each, and touch does not
 * ask for power.
 *
 * @throws UserError `place-inside-antenna`
 */
export function placeVerdict(
  place: LotPlace,
  field: string,
  base: Point,
  exposure: ExposureCase,
): PlaceExposure {
  const fromBase: Point = [place.at[0] - base[0], place.at[1] - base[1]];
  const exactM = Math.hypot(...fromBase);
  const insideM = Math.max(NEAREST_M, ...exposure.stations.map(({ radiator }) => radiator.radiusM));
  if (exactM < insideM) {
    throw new UserError(
      'place-inside-antenna',
      `"${place.name}" lies on the antenna itself: move it off the base`,
      { place: { field } },
    );
  }
  const distanceM = roundDown(exactM, DISTANCE_STEPS_PER_M);
  const heights = personAt(place.heightM);
  const { knownWires } = exposure.radiator;
  const end = onGrid(nearestEnd(knownWires, fromBase));
  const wire = onGrid(nearestWire(knownWires, fromBase));
  const [first, ...others] = [
    { ...allowedAt(exposure, heights, fromBase, distanceM), decidingRadial: null },
    ...allowedByWires(exposure, heights, end, wire),
  ] as const;
  const { peakPowerW, basis, decidingRadial } = others.reduce<PowerAtPlace>(
    (a, b) => (b.peakPowerW < a.peakPowerW ? b : a),
    first,
  );
  return {
    name: place.name,
    distanceM,
    heightM: place.heightM,
    verdict: verdictFor(exposure.transmission.peakPowerW, peakPowerW),
    maxPowerW: peakPowerW,
    basis,
    decidingRadial,
    nearestEnd: end,
    nearestWire: wire,
    unplacedMayReach:
      reachesRadials(heights, exposure.radiator) && distanceM < unplacedReachM(exposure.radiator),
  };
}

/** How far from the base a radial on the ground whose place is not known may be touched, m; 0 where there is none. */
export function unplacedReachM({ elevated, unplacedCount, grounded }: SiteRadiator): number {
  // Raised radials that may point anywhere are judged all round.
  if (elevated || unplacedCount === 0) return 0;
  return grounded === null ? Number.POSITIVE_INFINITY : grounded.lengthM + TOUCH_DISTANCE_M;
}

interface PowerAtPlace extends AllowedPower {
  readonly decidingRadial: number | null;
}

/**
 * What the radials allow. The open end counts as touchable whatever covers it, for nothing here tells how well it is
 * capped; the rest of a wire only where it is bare on the surface or hangs in the air. The field beside a wire on the
 * ground passes through insulation and turf; that of raised ones is in the antenna's.
 */
function allowedByWires(
  { radiator, groundWireCases, averageShare }: ExposureCase,
  heights: HeightSpan,
  end: NearWire | null,
  wire: NearWire | null,
): PowerAtPlace[] {
  if (end === null || wire === null) return [];
  const touched = radiator.bareOnSurface || radiator.mayHang ? wire : end;
  const touches = reachesRadials(heights, radiator) && touched.distanceM < TOUCH_DISTANCE_M;
  const overWiresM = Math.max(0, heights.fromM - radiator.radialHeights.toM);
  const nearestM = Math.max(NEAREST_M, Math.hypot(wire.distanceM, overWiresM));
  return [
    ...(touches ? [{ ...WITHIN_TOUCH, decidingRadial: touched.radial }] : []),
    { ...allowedPower(groundWireCases, averageShare, nearestM), decidingRadial: wire.radial },
  ];
}

function reachesRadials(heights: HeightSpan, { radialHeights }: SiteRadiator): boolean {
  return withinReach(heights, radialHeights.fromM, radialHeights.toM);
}

/** @param maxPowerW - the largest power within the limits, 0 within touch */
export function verdictFor(peakPowerW: number, maxPowerW: number): Verdict {
  if (peakPowerW <= maxPowerW) return 'clear';
  return maxPowerW < LEAST_USEFUL_POWER_W ? 'keep out' : 'reduce power';
}

function onGrid(near: NearWire | null): NearWire | null {
  return near === null ? null : { ...near, distanceM: roundDown(near.distanceM, DISTANCE_STEPS_PER_M) };
}
