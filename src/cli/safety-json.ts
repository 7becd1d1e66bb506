import type { BandAssessment, SafetyAssessment } from '../core/safety/assess.ts';
import type { DueInspection } from '../core/safety/inspections.ts';
import { TOUCH_DISTANCE_M } from '../core/safety/keep-off.ts';
import { levelStatus } from '../core/safety/level-status.ts';
import { LIMITS_DATE } from '../core/safety/limit-sets.ts';
import type { SafetyAnswer } from '../formats/page-data.ts';
import { plannedEffect } from './planned-effect.ts';

/** What is planned and not laid yet, and what would be asked of the garden with it. */
export interface Planned {
  readonly numbers: readonly number[];
  readonly assessment: SafetyAssessment;
}

/**
 * The document of `safety --json`. Distances to keep are rounded up, distances of places down, powers down.
 * `maxPowerW` is peak envelope power in the stated mode; 0 where no power clears the place.
 * `peakVoltageV` is the peak of the radio-frequency voltage at peak envelope power, not its rms.
 */
export function safetyJson(
  assessment: SafetyAssessment,
  due: readonly DueInspection[] | null,
  planned: Planned | null,
): SafetyAnswer {
  const now = answerOf(assessment, due);
  if (planned === null) return now;
  return { ...now, planned: plannedEffect(now, answerOf(planned.assessment, null), planned.numbers) };
}

function answerOf(assessment: SafetyAssessment, due: readonly DueInspection[] | null): SafetyAnswer {
  const { set, why } = assessment.limits;
  const answer = {
    limits: {
      id: set.id,
      title: set.title,
      why,
      averagingMinutes: set.averagingMinutes,
      contactCurrent: set.contactCurrent,
      source: set.source,
      readOn: LIMITS_DATE,
      levels: levelStatus(set),
    },
    touchDistanceM: TOUCH_DISTANCE_M,
    radials: { ...assessment.radials, endsNearBorder: assessment.border?.ends ?? [] },
    border: assessment.border,
    bands: assessment.bands.map((band) => ({
      ...sent(band),
      limit: set.id,
      averagePowerW: band.averagePowerW,
      distanceM: band.keepOut.distanceM,
      decidedBy: band.keepOut.basis,
      dutyFactor: band.transmission.mode.dutyFactor,
      onAirFraction: band.transmission.onAirFraction,
      farField: band.ruleOfThumb,
    })),
    places: assessment.bands.flatMap((band) =>
      band.places.map((place) => ({
        name: place.name,
        distanceM: place.distanceM,
        heightM: place.heightM,
        ...sent(band),
        verdict: place.verdict,
        maxPowerW: place.maxPowerW,
        decidedBy: place.basis,
        decidingRadial: place.decidingRadial,
        nearestRadialEnd: place.nearestEnd?.radial ?? null,
        nearestRadialEndM: place.nearestEnd?.distanceM ?? null,
        nearestWire: place.nearestWire?.radial ?? null,
        nearestWireM: place.nearestWire?.distanceM ?? null,
        unplacedRadialMayReach: place.unplacedMayReach,
        usExemption: place.exemption,
      })),
    ),
    planned: null,
    wireEnds: assessment.bands.flatMap((band) => band.wireEnds.map((end) => ({ ...sent(band), ...end }))),
    joints: assessment.joints.map((joint) => ({
      ...joint,
      due: due?.find((inspection) => inspection.joint === joint.name) ?? null,
    })),
    accuracy: assessment.accuracy,
    cautions: assessment.cautions,
    assumptions: assessment.assumptions,
    limitsOfMethod: assessment.limitsOfMethod,
  };
  return answer;
}

function sent({ transmission }: BandAssessment): { band: string; mode: string; peakPowerW: number } {
  return {
    band: transmission.band.band,
    mode: transmission.mode.mode,
    peakPowerW: transmission.peakPowerW,
  };
}
