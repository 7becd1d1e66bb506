import { wavenumberPerM } from '../ground/free-space.ts';
import { ON_SOIL_VELOCITY_FACTOR } from '../ground/wire-velocity.ts';
import type { Radiator } from './arrangement.ts';
import { baseShare, type GroundedRadials, groundedLoopA, sharedLoopA } from './radial-current.ts';

/** Where a wire of the antenna carries a high voltage against the ground. */
export type WireEnd = 'element tip' | 'element base' | 'radial end';

/** How rough the estimate is. */
export type Accuracy = 'within 15 %' | 'within a factor of two' | 'at most; may be half of it';

/** The voltage at one kind of open end. */
export interface EndVoltage {
  readonly end: WireEnd;
  /** For the radials: how many share the current; 1 for the element. */
  readonly sharedBy: number;
  readonly rmsVoltageV: number;
  readonly accuracy: Accuracy;
}

/** How deep the current of a wire on soil returns: the deepest skin depth of the usual soils at HF, m. */
const RETURN_DEPTH_M = 10;

/**
 * Voltages against the ground at the open ends of the wires and at the foot of the element.
 *
 * A wire is taken as an open line: its end stands at loop current × mean characteristic impedance. Element:
 * Z = 60(ln(2h/a) − 1); level wire at height H: Z = 60·ln(2H/a); wire on soil: the same with the depth at which
 * its current returns, slowed as little as wires on soil are, its loss left out, so that the voltage comes
 * out too high rather than too low. The foot of the element stands at Z·|cos kh| and the feed resistance.
 *
 * Good to about 15 % at the open ends of element and raised wires of constant thickness; a factor of two at the
 * foot, and on soil, there as an upper figure. A wire with a coil, a trap or a hat is not told by this.
 *
 * @param loopA - current at the element's loop, rms
 * @param feedOhm - resistance at the feed point, for the foot of the element
 * Source: S. A. Schelkunoff, Electromagnetic Waves (1943), mean characteristic impedance; check values computed.
 */
export function endVoltages(
  radiator: Radiator,
  grounded: GroundedRadials | null,
  frequencyHz: number,
  loopA: number,
  feedOhm: number,
): EndVoltage[] {
  const k = wavenumberPerM(frequencyHz);
  const { heightM, baseHeightM, elevated } = radiator;
  const elementOhm = averageImpedanceOhm(radiator);
  const baseA = loopA * baseShare(radiator, frequencyHz);
  const ends: EndVoltage[] = [
    { end: 'element tip', sharedBy: 1, rmsVoltageV: loopA * elementOhm, accuracy: 'within 15 %' },
    {
      end: 'element base',
      sharedBy: 1,
      rmsVoltageV: Math.hypot(loopA * elementOhm * Math.cos(k * heightM), baseA * feedOhm),
      accuracy: 'within a factor of two',
    },
  ];
  if (elevated !== null) {
    const wireOhm = levelWireImpedanceOhm(baseHeightM, elevated.radiusM);
    ends.push({
      end: 'radial end',
      sharedBy: elevated.count,
      rmsVoltageV: sharedLoopA(baseA, elevated.count, k * elevated.lengthM) * wireOhm,
      accuracy: 'within 15 %',
    });
  } else if (grounded !== null) {
    const wireOhm = ON_SOIL_VELOCITY_FACTOR.high * levelWireImpedanceOhm(RETURN_DEPTH_M, grounded.radiusM);
    ends.push({
      end: 'radial end',
      sharedBy: grounded.count,
      rmsVoltageV: groundedLoopA(radiator, grounded, frequencyHz, loopA) * wireOhm,
      accuracy: 'at most; may be half of it',
    });
  }
  return ends;
}

/** Mean characteristic impedance of an upright wire over ground, ohm. */
function averageImpedanceOhm({ heightM, radiusM }: Radiator): number {
  return 60 * (Math.log((2 * heightM) / radiusM) - 1);
}

/** Characteristic impedance of a level wire over ground, ohm. */
function levelWireImpedanceOhm(heightM: number, radiusM: number): number {
  return 60 * Math.log((2 * heightM) / radiusM);
}
