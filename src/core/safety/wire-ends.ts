import { wavenumberPerM } from '../ground/free-space.ts';
import { ON_SOIL_VELOCITY_FACTOR } from '../ground/wire-velocity.ts';
import { LEAST_RADIAL_SINE, type Radiator } from './arrangement.ts';

/** Where a wire of the antenna carries a high voltage against the ground. */
export type WireEnd = 'element tip' | 'element base' | 'radial end';

/** How rough the estimate is. */
export type Accuracy = 'within 15 %' | 'within a factor of two' | 'upper figure, within a factor of two';

export interface EndVoltage {
  readonly end: WireEnd;
  /** For the radials: how many share the current; 1 for the element. */
  readonly sharedBy: number;
  readonly rmsVoltageV: number;
  readonly accuracy: Accuracy;
  /** Current loop of the wire, A rms, which also sets the field beside its end. */
  readonly loopA: number;
}

/** Radials that lie on or in the ground. */
export interface GroundedRadials {
  readonly count: number;
  readonly lengthM: number;
  readonly radiusM: number;
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
  const baseA = loopA * Math.abs(Math.sin(k * heightM));
  const ends: EndVoltage[] = [
    { end: 'element tip', sharedBy: 1, rmsVoltageV: loopA * elementOhm, accuracy: 'within 15 %', loopA },
    {
      end: 'element base',
      sharedBy: 1,
      rmsVoltageV: Math.hypot(loopA * elementOhm * Math.cos(k * heightM), baseA * feedOhm),
      accuracy: 'within a factor of two',
      loopA,
    },
  ];
  if (elevated !== null) {
    const wireOhm = levelWireImpedanceOhm(baseHeightM, elevated.radiusM);
    ends.push(radialEnd(elevated.count, baseA, wireOhm, k * elevated.lengthM, 'within 15 %'));
  } else if (grounded !== null && grounded.count > 0) {
    const slowed = ON_SOIL_VELOCITY_FACTOR.high;
    const wireOhm = slowed * levelWireImpedanceOhm(RETURN_DEPTH_M, grounded.radiusM);
    const lengthRad = (k * grounded.lengthM) / slowed;
    ends.push(radialEnd(grounded.count, baseA, wireOhm, lengthRad, 'upper figure, within a factor of two'));
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

function radialEnd(
  count: number,
  baseA: number,
  wireOhm: number,
  lengthRad: number,
  accuracy: Accuracy,
): EndVoltage {
  const loopA = baseA / (count * Math.max(Math.abs(Math.sin(lengthRad)), LEAST_RADIAL_SINE));
  return { end: 'radial end', sharedBy: count, rmsVoltageV: loopA * wireOhm, accuracy, loopA };
}
