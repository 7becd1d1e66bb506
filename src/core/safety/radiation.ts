import { FREE_SPACE_IMPEDANCE_OHM, wavelengthM } from '../ground/free-space.ts';
import { integrate } from '../ground/quadrature.ts';
import type { Arrangement } from './arrangement.ts';
import { addFilamentField, type Filament } from './filament.ts';

/** Magnitudes of the total fields, in the sense of the current: rms for an rms current. */
export interface FieldMagnitudes {
  readonly electricVPerM: number;
  readonly magneticAPerM: number;
}

/**
 * Fields at a point for 1 A at the element's current loop. Nearer than a wire's surface, those of the surface.
 *
 * @param scratch - length 12, overwritten; worth giving where many points are asked for
 */
export function fieldsPerLoopAmpere(
  arrangement: Arrangement,
  eastM: number,
  northM: number,
  upM: number,
  scratch: Float64Array = new Float64Array(12),
): FieldMagnitudes {
  scratch.fill(0);
  for (const wire of arrangement.all) addFilamentField(wire, eastM, northM, upM, scratch);
  return { electricVPerM: size(scratch, 0), magneticAPerM: size(scratch, 6) };
}

/**
 * Radiation resistance at the element's current loop: the power that the currents give to their own field,
 * P = −½Re∫E·I* along every wire, over half the loop current squared. One method for any height, base height
 * and number of radials, and finite for a half wave, where the base value is not.
 *
 * Source: the induced-EMF method, C. A. Balanis, Antenna Theory, sec. 8.5.
 */
export function loopResistanceOhm(arrangement: Arrangement): number {
  const { element, radial, radialCount } = arrangement;
  const own = powerGivenUp(element, arrangement);
  return radial === null ? own : own + radialCount * powerGivenUp(radial, arrangement);
}

/**
 * The largest directivity over the upper half space, as a ratio to isotropic; over perfect ground a quarter
 * wave has 3.28.
 */
export function largestGain(arrangement: Arrangement, loopOhm: number): number {
  const farM = 300 * wavelengthM(arrangement.frequencyHz);
  let largest = 0;
  for (let elevationDeg = 0; elevationDeg < 90; elevationDeg += 3) {
    const elevation = (elevationDeg * Math.PI) / 180;
    const { electricVPerM } = fieldsPerLoopAmpere(
      arrangement,
      farM * Math.cos(elevation),
      0,
      farM * Math.sin(elevation),
    );
    largest = Math.max(largest, electricVPerM);
  }
  return (4 * Math.PI * farM ** 2 * largest ** 2) / (FREE_SPACE_IMPEDANCE_OHM * loopOhm);
}

function powerGivenUp(wire: Filament, { all }: Arrangement): number {
  const k = wire.wavenumberPerM;
  const [ux, uy, uz] = wire.direction;
  const [x, y, z] = wire.start;
  const sum = new Float64Array(12);
  const given = integrate(
    (s, out) => {
      sum.fill(0);
      for (const source of all) addFilamentField(source, x + s * ux, y + s * uy, z + s * uz, sum);
      const along = (sum[0] as number) * ux + (sum[1] as number) * uy + (sum[2] as number) * uz;
      out[0] = -along * wire.loopA * Math.sin(k * (wire.lengthM - s));
    },
    [0, wire.lengthM],
    { components: 1, relativeTolerance: 1e-6 },
  );
  return given.value[0] as number;
}

function size(sum: Float64Array, at: number): number {
  let squares = 0;
  for (let i = at; i < at + 6; i++) squares += (sum[i] as number) ** 2;
  return Math.sqrt(squares);
}
