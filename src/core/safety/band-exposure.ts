import type { Antenna } from '../site.ts';
import { bandCentreHz } from '../sweep/bands.ts';
import {
  type AllowedPower,
  allowedPower,
  type Basis,
  DISTANCE_STEPS_PER_M,
  distanceForPowerM,
  type FrequencyCase,
} from './allowed-power.ts';
import { exposureProfile, type HeightSpan, personAt } from './exposure-profile.ts';
import { touchDistanceM } from './keep-off.ts';
import { type LimitSet, limitsAt } from './limits.ts';
import { roundUp } from './rounding.ts';
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

/** How far people on the ground keep away, and what decides it. */
export interface KeepOutDistance {
  /** Rounded up to a tenth of a metre; never under the touch distance. */
  readonly distanceM: number;
  readonly basis: Basis | 'arm’s reach';
}

/** The keep-out distance of a transmission for people standing on the ground. */
export function keepOutDistance(exposure: ExposureCase): KeepOutDistance {
  const heights = personAt(0);
  const cases = exposure.casesAt(heights);
  const touchM = touchOnGridM(exposure, heights);
  const fieldM = distanceForPowerM(cases, exposure.averageShare, exposure.transmission.peakPowerW);
  if (fieldM <= touchM) return { distanceM: touchM, basis: 'arm’s reach' };
  const inside = allowedPower(cases, exposure.averageShare, fieldM - 1 / DISTANCE_STEPS_PER_M);
  return { distanceM: fieldM, basis: inside.basis };
}

/** What is allowed at a distance for people within a span of heights; null within touch, where no power is. */
export function allowedAt(
  exposure: ExposureCase,
  heights: HeightSpan,
  gridDistanceM: number,
): AllowedPower | null {
  if (gridDistanceM < touchOnGridM(exposure, heights)) return null;
  return allowedPower(exposure.casesAt(heights), exposure.averageShare, gridDistanceM);
}

function touchOnGridM({ radiator, stations }: ExposureCase, heights: HeightSpan): number {
  const reaches = stations.map(({ frequencyHz }) => touchDistanceM(radiator, heights, frequencyHz));
  return roundUp(Math.max(...reaches), DISTANCE_STEPS_PER_M);
}
