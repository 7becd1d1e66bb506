import { bandsOfRegion } from '../core/sweep/bands.ts';

/** A unit of frequency, as it is written. */
export type FrequencyUnit = 'Hz' | 'kHz' | 'MHz' | 'GHz';

/** Hertz in one of each unit. */
export const HZ_PER_UNIT: Readonly<Record<FrequencyUnit, number>> = { Hz: 1, kHz: 1e3, MHz: 1e6, GHz: 1e9 };

/** Every unit, rising. */
export const FREQUENCY_UNITS: readonly FrequencyUnit[] = Object.keys(HZ_PER_UNIT) as FrequencyUnit[];

/** A unit by name in any case, or null. */
export function frequencyUnit(text: string): FrequencyUnit | null {
  const wanted = text.toLowerCase();
  return FREQUENCY_UNITS.find((unit) => unit.toLowerCase() === wanted) ?? null;
}

/** A frequency in hertz; where the product is a whole number but for the last bit, it is that whole number. */
export function toHz(value: number, hzPerUnit: number): number {
  const hz = value * hzPerUnit;
  const whole = Math.round(hz);
  return Math.abs(hz - whole) <= whole * 2 * Number.EPSILON ? whole : hz;
}

/** No sweep of an antenna that this program is for goes higher. */
export const HIGHEST_PLAUSIBLE_HZ = 6e9;

/**
 * The units in which a bare range of frequencies makes sense here: it touches an amateur band of the widest table
 * (160 m to 6 m) and stays under {@link HIGHEST_PLAUSIBLE_HZ}. Only one unit left is a reading, two are a riddle.
 */
export function plausibleUnits(from: number, to: number): FrequencyUnit[] {
  const bands = bandsOfRegion(2);
  return FREQUENCY_UNITS.filter((unit) => {
    const fromHz = from * HZ_PER_UNIT[unit];
    const toHz = to * HZ_PER_UNIT[unit];
    return toHz <= HIGHEST_PLAUSIBLE_HZ && bands.some((band) => fromHz <= band.toHz && toHz >= band.fromHz);
  });
}
