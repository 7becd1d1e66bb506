import type { Antenna, Point } from '../site.ts';
import { bandCentreHz } from '../sweep/bands.ts';
import {
  type AllowedPower,
  allowedPower,
  type Basis,
  distanceForPowerM,
  type FrequencyCase,
  WITHIN_TOUCH,
} from './allowed-power.ts';
import { type Arrangement, MOST_MODELLED_RADIALS } from './arrangement.ts';
import { type ExposureProfile, exposureProfile, type HeightSpan, personAt } from './exposure-profile.ts';
import { groundWireProfile } from './ground-wire.ts';
import { touchDistanceM } from './keep-off.ts';
import { type LimitSet, limitsAt } from './limits.ts';
import { pieceDistancesM } from './nearest-wire.ts';
import { type PlacedProfile, placedProfile } from './placed-profile.ts';
import { groundedLoopA, missingBaseShare } from './radial-current.ts';
import type { FieldMagnitudes } from './radiation.ts';
import { DISTANCE_STEPS_PER_M, roundDown, roundUp } from './rounding.ts';
import type { SiteRadiator } from './site-radiator.ts';
import { type Station, stationAt } from './station.ts';
import type { PlannedTransmission } from './transmissions.ts';

/** All that the exposure of one transmission is computed from. */
export interface ExposureCase {
  readonly transmission: PlannedTransmission;
  readonly limits: LimitSet;
  readonly radiator: SiteRadiator;
  /** At both edges and the middle of the band; the strictest counts. */
  readonly stations: readonly Station[];
  /** Mean over peak power within the averaging time. */
  readonly averageShare: number;
  /** Cases of the radials on the ground, against distance from the nearest of them; none without such radials. */
  readonly groundWireCases: readonly FrequencyCase[];
  /** Cases for people within a span of heights, at the worst bearing; computed once a span. */
  casesAt(heights: HeightSpan): readonly FrequencyCase[];
  /** The same at one place, so many metres east and north of the base: among raised radials by its distance from each. */
  casesNear(heights: HeightSpan, fromBase: Point): readonly FrequencyCase[];
}

/** Prepares the fields of one transmission. */
export function exposureCase(
  transmission: PlannedTransmission,
  limits: LimitSet,
  radiator: SiteRadiator,
  antenna: Antenna,
  efficiency: number,
): ExposureCase {
  const { band, mode, onAirFraction } = transmission;
  const stations = [band.fromHz, bandCentreHz(band), band.toHz].flatMap((frequencyHz) =>
    radiator.at(frequencyHz).map((parts) => stationAt(parts, antenna, frequencyHz, efficiency)),
  );
  const known = new Map<string, readonly StationCase[]>();
  const allRaisedPlaced = radiator.elevated && radiator.unplacedCount === 0;
  const stationCases = (heights: HeightSpan): readonly StationCase[] => {
    const key = `${heights.fromM} ${heights.toM}`;
    const cases =
      known.get(key) ??
      stations.map(({ radiator: parts, arrangement, frequencyHz, currentSquaredPerW }) => ({
        profile: withFoot(exposureProfile(arrangement, heights), missingBaseShare(parts, frequencyHz)),
        placed: allRaisedPlaced ? placedProfile(arrangement, heights, shareOf(arrangement, radiator)) : null,
        limits: limitsAt(limits, frequencyHz),
        currentSquaredPerW,
      }));
    known.set(key, cases);
    return cases;
  };
  return {
    transmission,
    limits,
    radiator,
    stations,
    averageShare: mode.dutyFactor * onAirFraction,
    groundWireCases: stations.flatMap((station) => groundWireCase(station, radiator, limits)),
    casesAt: stationCases,
    casesNear(heights, fromBase) {
      const wiresM = pieceDistancesM(radiator.knownWires, fromBase).map((m) =>
        roundDown(m, DISTANCE_STEPS_PER_M),
      );
      return stationCases(heights).map(({ profile, placed, ...others }) => ({
        ...others,
        profile: placed === null ? profile : (m: number) => lesserOf(profile(m), placed(m, wiresM)),
      }));
    },
  };
}

interface StationCase extends FrequencyCase {
  /** Null where the way of any raised radial is not known, which may then point anywhere. */
  readonly placed: PlacedProfile | null;
}

/** Adds the magnetic field round a current at the foot of the element that the sinusoid leaves out. */
function withFoot(profile: ExposureProfile, footA: number): ExposureProfile {
  if (footA === 0) return profile;
  return (distanceM) => {
    const { electricVPerM, magneticAPerM } = profile(distanceM);
    return { electricVPerM, magneticAPerM: magneticAPerM + footA / (2 * Math.PI * distanceM) };
  };
}

/** Current of one of the radials that are known over that of one of the evenly spread ones of the arrangement. */
function shareOf({ radialCount }: Arrangement, { knownWires }: SiteRadiator): number {
  return radialCount / Math.min(knownWires.length, MOST_MODELLED_RADIALS);
}

/** Each of the two fields where it is lower: both figures hold. */
function lesserOf(a: FieldMagnitudes, b: FieldMagnitudes): FieldMagnitudes {
  return {
    electricVPerM: Math.min(a.electricVPerM, b.electricVPerM),
    magneticAPerM: Math.min(a.magneticAPerM, b.magneticAPerM),
  };
}

function groundWireCase(station: Station, { grounded }: SiteRadiator, limits: LimitSet): FrequencyCase[] {
  if (grounded === null) return [];
  const { frequencyHz, currentSquaredPerW } = station;
  if (station.radiator.elevated !== null) return [];
  const loopA = groundedLoopA(station.radiator, grounded, frequencyHz, 1);
  return [{ profile: groundWireProfile(loopA), limits: limitsAt(limits, frequencyHz), currentSquaredPerW }];
}

/** How far people on the ground keep away, and what decides it. */
export interface KeepOutDistance {
  /** Rounded up to a tenth of a metre; never under the touch distance. */
  readonly distanceM: number;
  readonly basis: Basis;
}

/** The keep-out distance of a transmission for people standing on the ground. */
export function keepOutDistance(exposure: ExposureCase): KeepOutDistance {
  const heights = personAt(0);
  const cases = exposure.casesAt(heights);
  const touchM = touchOnGridM(exposure, heights);
  const fieldM = distanceForPowerM(cases, exposure.averageShare, exposure.transmission.peakPowerW);
  if (fieldM <= touchM) return { distanceM: touchM, basis: WITHIN_TOUCH.basis };
  const inside = allowedPower(cases, exposure.averageShare, fieldM - 1 / DISTANCE_STEPS_PER_M);
  return { distanceM: fieldM, basis: inside.basis };
}

/** What the antenna as a whole allows at a place for people within a span of heights. */
export function allowedAt(
  exposure: ExposureCase,
  heights: HeightSpan,
  fromBase: Point,
  gridDistanceM: number,
): AllowedPower {
  if (gridDistanceM < touchOnGridM(exposure, heights)) return WITHIN_TOUCH;
  return allowedPower(exposure.casesNear(heights, fromBase), exposure.averageShare, gridDistanceM);
}

function touchOnGridM({ radiator, stations }: ExposureCase, heights: HeightSpan): number {
  const reaches = stations.map(({ frequencyHz }) => touchDistanceM(radiator, heights, frequencyHz));
  return roundUp(Math.max(...reaches), DISTANCE_STEPS_PER_M);
}
