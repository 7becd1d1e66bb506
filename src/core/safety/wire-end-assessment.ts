import { distanceForPowerM } from './allowed-power.ts';
import type { ExposureCase } from './band-exposure.ts';
import { endReachM } from './end-reach.ts';
import { ARMS_REACH_M } from './keep-off.ts';
import { limitsAt } from './limits.ts';
import { roundUp } from './rounding.ts';
import type { Station } from './station.ts';
import { type Accuracy, type EndVoltage, endVoltages, type WireEnd } from './wire-ends.ts';

/** What stands at the ends of the wires in one transmission. */
export interface WireEndAssessment {
  readonly end: WireEnd;
  readonly sharedBy: number;
  /** Peak of the radio-frequency voltage at peak envelope power, rounded up to a volt. */
  readonly peakVoltageV: number;
  readonly rmsVoltageV: number;
  readonly accuracy: Accuracy;
  /**
   * How far people stay from the end, rounded up: arm's reach, or farther where the electric field asks. At the
   * foot of the element the keep-out distance of the band counts.
   */
  readonly keepOffM: number;
}

/** Voltages and keep-off distances of the wire ends, the worst frequency of the band for each. */
export function assessWireEnds(exposure: ExposureCase): WireEndAssessment[] {
  const { stations, radiator, transmission } = exposure;
  const byStation = stations.map((station) => {
    const loopA = Math.sqrt(station.currentSquaredPerW * transmission.peakPowerW);
    const ends = endVoltages(
      station.radiator,
      radiator.grounded,
      station.frequencyHz,
      loopA,
      station.feedOhm,
    );
    return ends.map((end) => ({ ...end, reachM: fieldReachM(exposure, end, station, loopA) }));
  });
  const [first = []] = byStation;
  return first.map(({ end, sharedBy }, i) => {
    const those = byStation.flatMap((ends) => ends[i] ?? []);
    const highest = those.reduce((a, b) => (b.rmsVoltageV > a.rmsVoltageV ? b : a));
    const reachM = Math.max(...those.map((one) => one.reachM));
    return {
      end,
      sharedBy,
      peakVoltageV: roundUp(highest.rmsVoltageV * Math.SQRT2, 1),
      rmsVoltageV: roundUp(highest.rmsVoltageV, 1),
      accuracy: highest.accuracy,
      keepOffM: roundUp(Math.max(ARMS_REACH_M, reachM), 10),
    };
  });
}

/** Distance at which the field beside an end has fallen to its level. */
function fieldReachM(exposure: ExposureCase, { end }: EndVoltage, station: Station, loopA: number): number {
  const { limits, averageShare, groundWireCases, transmission } = exposure;
  if (end === 'element base') return 0;
  if (end === 'radial end' && station.radiator.elevated === null) {
    return distanceForPowerM(groundWireCases, averageShare, transmission.peakPowerW);
  }
  const { averaged, instantaneous } = limitsAt(limits, station.frequencyHz);
  const levelVPerM = Math.min(
    (averaged.electricVPerM ?? Number.POSITIVE_INFINITY) / Math.sqrt(averageShare),
    instantaneous.electricVPerM ?? Number.POSITIVE_INFINITY,
  );
  const { element, radial } = station.arrangement;
  const wire = end === 'radial end' && radial !== null ? radial : element;
  return endReachM(station.arrangement, wire, levelVPerM / loopA);
}
