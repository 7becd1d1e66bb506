import type { Antenna } from '../site.ts';
import { bandCentreHz } from '../sweep/bands.ts';
import {
  type AllowedPower,
  allowedPower,
  type Basis,
  distanceForPowerM,
  type FrequencyCase,
  WITHIN_TOUCH,
} from './allowed-power.ts';
import { exposureProfile, type HeightSpan, personAt } from './exposure-profile.ts';
import { groundWireProfile } from './ground-wire.ts';
import { touchDistanceM } from './keep-off.ts';
import { type LimitSet, limitsAt } from './limits.ts';
import { groundedLoopA } from './radial-current.ts';
import { DISTANCE_STEPS_PER_M, roundUp } from './rounding.ts';
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
  /** Cases for people within a span of heights; computed once a span. */
  casesAt(heights: HeightSpan): readonly FrequencyCase[];
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
  const stations = [band.fromHz, bandCentreHz(band), band.toHz].map((frequencyHz) =>
    stationAt(radiator, antenna, frequencyHz, efficiency),
  );
  const known = new Map<string, readonly FrequencyCase[]>();
  return {
    transmission,
    limits,
    radiator,
    stations,
    averageShare: mode.dutyFactor * onAirFraction,
    groundWireCases: stations.flatMap((station) => groundWireCase(station, radiator, limits)),
    casesAt(heights) {
      const key = `${heights.fromM} ${heights.toM}`;
      const cases =
        known.get(key) ??
        stations.map(({ arrangement, frequencyHz, currentSquaredPerW }) => ({
          profile: exposureProfile(arrangement, heights),
          limits: limitsAt(limits, frequencyHz),
          currentSquaredPerW,
        }));
      known.set(key, cases);
      return cases;
    },
  };
}

function groundWireCase(station: Station, { grounded }: SiteRadiator, limits: LimitSet): FrequencyCase[] {
  if (grounded === null) return [];
  const { frequencyHz, currentSquaredPerW } = station;
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

/** What is allowed at a distance from the base for people within a span of heights. */
export function allowedAt(exposure: ExposureCase, heights: HeightSpan, gridDistanceM: number): AllowedPower {
  if (gridDistanceM < touchOnGridM(exposure, heights)) return WITHIN_TOUCH;
  return allowedPower(exposure.casesAt(heights), exposure.averageShare, gridDistanceM);
}

function touchOnGridM({ radiator, stations }: ExposureCase, heights: HeightSpan): number {
  const reaches = stations.map(({ frequencyHz }) => touchDistanceM(radiator, heights, frequencyHz));
  return roundUp(Math.max(...reaches), DISTANCE_STEPS_PER_M);
}
