import { UserError } from '../user-error.ts';

/** Speed of light in vacuum, m/s (exact, SI). */
export const SPEED_OF_LIGHT = 299_792_458;
/** Permeability of vacuum, H/m: 4π·10⁻⁷, which CODATA 2018 keeps to 10 digits. */
export const VACUUM_PERMEABILITY: number = 4e-7 * Math.PI;
/** Permittivity of vacuum, F/m. */
export const VACUUM_PERMITTIVITY: number = 1 / (VACUUM_PERMEABILITY * SPEED_OF_LIGHT ** 2);
/** Wave impedance of free space, 376.73 Ω. */
export const FREE_SPACE_IMPEDANCE_OHM: number = VACUUM_PERMEABILITY * SPEED_OF_LIGHT;

/** @throws UserError `not-positive` unless the value is a finite number above zero */
export function requirePositive(value: number, field: string, unit: string): void {
  if (!(value > 0) || !Number.isFinite(value)) {
    throw new UserError('not-positive', `a number of ${unit} above zero is needed, got ${value}`, {
      place: { field },
    });
  }
}

/** Wavelength in free space, m. @throws UserError `not-positive` */
export function wavelengthM(frequencyHz: number): number {
  requirePositive(frequencyHz, 'frequency', 'hertz');
  return SPEED_OF_LIGHT / frequencyHz;
}

/** Phase constant k = 2π/λ, rad/m. @throws UserError `not-positive` */
export function wavenumberPerM(frequencyHz: number): number {
  return (2 * Math.PI) / wavelengthM(frequencyHz);
}
