import { requirePositive } from './free-space.ts';
import { electricalHeightRad, type Monopole, monopoleImpedance } from './monopole.ts';

/** Voltage at an open end, V rms, with its uncertainty as a part of it. */
export interface EndVoltage {
  readonly rmsV: number;
  readonly peakV: number;
  /** 0.15: the average characteristic impedance is itself a rule of thumb. */
  readonly relativeUncertainty: number;
}

const UNCERTAINTY = 0.15;

/**
 * Voltage at the top of a vertical against the ground: the loop current times the average
 * characteristic impedance 60·(ln(2h/a) − 1).
 *
 * High on purpose: all the power is taken as radiated unless the feed resistance is given, and loss
 * would lower the current. It burns at the touch: caps or insulators on bare ends, out of reach.
 *
 * @param powerW - average or peak envelope power, whichever voltage is wanted
 * @param feedResistanceOhm - at the base; the radiation resistance unless given, and not used near a half wave
 * @throws UserError `not-positive`, `too-tall`
 * Source: S. A. Schelkunoff, the average characteristic impedance of a thin monopole (memory).
 */
export function monopoleEndVoltage(
  monopole: Monopole,
  frequencyHz: number,
  powerW: number,
  feedResistanceOhm?: number,
): EndVoltage {
  requirePositive(powerW, 'transmit.peakPower', 'watts');
  if (feedResistanceOhm !== undefined) requirePositive(feedResistanceOhm, 'feed resistance', 'ohms');
  const { atLoopOhm, atBaseOhm } = monopoleImpedance(monopole, frequencyHz);
  const toLoop = Math.sin(electricalHeightRad(monopole, frequencyHz)) ** 2;
  const loopOhm =
    feedResistanceOhm === undefined || atBaseOhm === null ? atLoopOhm.re : feedResistanceOhm * toLoop;
  const averageOhm = 60 * (Math.log((2 * monopole.heightM) / monopole.radiusM) - 1);
  return endVoltage(averageOhm * Math.sqrt(powerW / loopOhm));
}

/** A set of tuned radials above ground. */
export interface ElevatedRadials {
  readonly count: number;
  readonly heightM: number;
  readonly radiusM: number;
}

/**
 * Voltage at the far end of each elevated quarter-wave radial: its share of the base current times the
 * characteristic impedance of a wire over ground, 60·ln(2H/a). Equal shares are assumed; unequal
 * radials put more on some.
 *
 * @param baseResistanceOhm - at the feed point
 * @throws UserError `not-positive`
 * Source: transmission-line theory of a wire over a plane (common practice).
 */
export function radialEndVoltage(
  radials: ElevatedRadials,
  baseResistanceOhm: number,
  powerW: number,
): EndVoltage {
  requirePositive(powerW, 'transmit.peakPower', 'watts');
  requirePositive(baseResistanceOhm, 'feed resistance', 'ohms');
  requirePositive(radials.count, 'radials.count', 'radials');
  requirePositive(radials.heightM, 'radials.height', 'metres');
  requirePositive(radials.radiusM, 'radials.diameter', 'metres');
  const lineOhm = 60 * Math.log((2 * radials.heightM) / radials.radiusM);
  return endVoltage((lineOhm * Math.sqrt(powerW / baseResistanceOhm)) / radials.count);
}

function endVoltage(rmsV: number): EndVoltage {
  return { rmsV, peakV: rmsV * Math.SQRT2, relativeUncertainty: UNCERTAINTY };
}
