import { wavelengthM } from '../ground/free-space.ts';

/** Power factor of a perfect reflection in phase: the field doubles. */
export const FULL_REFLECTION = 4;

/** Power factor of the reflection met in practice over ground: the field rises to 1.6 times. */
export const PRACTICAL_REFLECTION = 2.56;

/** Gain of a half-wave dipole over isotropic, as the rules use it between ERP and EIRP. */
export const DIPOLE_GAIN = 1.64;

/**
 * λ/2π, m: where the near field of a small source begins to give way. Nearer than this the power-density form
 * is no more than an indication, and electric and magnetic field have to be told apart.
 */
export function nearFieldBoundaryM(frequencyHz: number): number {
  return wavelengthM(frequencyHz) / (2 * Math.PI);
}

/**
 * Power density at a distance, W/m²: S = K·P·G/(4πR²).
 *
 * @param gain - over isotropic in free space, as a ratio
 * @param reflection - K: 1, {@link PRACTICAL_REFLECTION} or {@link FULL_REFLECTION}
 * Source: FCC OET Bulletin 65 (ed. 97-01), eq. (3), (6) and (8); eq. (9) is (8) in ERP and µW/cm².
 */
export function powerDensityWPerM2(
  powerW: number,
  gain: number,
  distanceM: number,
  reflection: number,
): number {
  return (reflection * powerW * gain) / (4 * Math.PI * distanceM ** 2);
}

/** The distance at which the power density has fallen to a level, m; {@link powerDensityWPerM2} turned round. */
export function farFieldDistanceM(
  powerW: number,
  gain: number,
  levelWPerM2: number,
  reflection: number,
): number {
  return Math.sqrt((reflection * powerW * gain) / (4 * Math.PI * levelWPerM2));
}
