import type { Complex } from '../complex.ts';
import { UserError } from '../user-error.ts';
import { FREE_SPACE_IMPEDANCE_OHM, requirePositive, wavelengthM, wavenumberPerM } from './free-space.ts';
import { cosineIntegral, entireCosineIntegral, sineIntegral } from './sine-cosine-integrals.ts';

/** A straight vertical radiator fed between its foot and the ground. */
export interface Monopole {
  readonly heightM: number;
  readonly radiusM: number;
}

/** The tallest radiator the sinusoidal current is used for, in wavelengths. */
export const TALLEST_WAVELENGTHS = 0.625;

/**
 * The least |sin kh| at which the base current is still told by the sinusoid. Nearer to a half wave
 * the real base current is set by the conductor's thickness, and anything referred to it is a guess.
 * Heights up to 0.417 λ and from 0.583 λ pass. Our own choice.
 */
const LEAST_BASE_CURRENT = 0.5;

/** An impedance referred to the current maximum, and to the base where that can be told. */
export interface MonopoleImpedance {
  readonly atLoopOhm: Complex;
  readonly atBaseOhm: Complex | null;
}

/**
 * Impedance of a monopole over perfect ground: the induced-EMF closed form of a thin dipole, halved.
 * The current is taken as a sinusoid, so the loop form has no pole at a half wave; conductor
 * thickness enters the reactance alone.
 *
 * Good to 1 % in resistance for thin conductors below 0.3 λ; towards a half wave the base value
 * drifts from measured ones, and within {@link LEAST_BASE_CURRENT} of it is `null`.
 *
 * @throws UserError `not-positive`, `too-tall`
 * Source: C. A. Balanis, Antenna Theory, sec. 8.5 (eq. 8-60 to 8-61 in the 3rd ed.), with
 * γ + ln x − Ci x gathered into Cin x, which keeps the digits for short radiators.
 */
export function monopoleImpedance(monopole: Monopole, frequencyHz: number): MonopoleImpedance {
  const kh = electricalHeightRad(monopole, frequencyHz);
  const sine = Math.sin(2 * kh);
  const cosine = Math.cos(2 * kh);
  const length = 2 * kh;
  const siOnce = sineIntegral(length);
  const siTwice = sineIntegral(2 * length);
  const thickness = kh * (monopole.radiusM / monopole.heightM) ** 2;
  const half = FREE_SPACE_IMPEDANCE_OHM / (8 * Math.PI);
  const atLoopOhm = {
    re:
      half *
      (2 * entireCosineIntegral(length) +
        sine * (siTwice - 2 * siOnce) +
        cosine * (2 * entireCosineIntegral(length) - entireCosineIntegral(2 * length))),
    im:
      half *
      (2 * siOnce +
        cosine * (2 * siOnce - siTwice) -
        sine * (2 * cosineIntegral(length) - cosineIntegral(2 * length) - cosineIntegral(thickness))),
  };
  const base = Math.sin(kh);
  if (!isBaseCurrentTold(monopole, frequencyHz)) return { atLoopOhm, atBaseOhm: null };
  return { atLoopOhm, atBaseOhm: { re: atLoopOhm.re / base ** 2, im: atLoopOhm.im / base ** 2 } };
}

/**
 * Base impedance of a monopole over perfect ground; see {@link monopoleImpedance}.
 *
 * @throws UserError `not-positive`, `too-tall`, `near-half-wave` where the base value cannot be told
 */
export function monopoleImpedanceOhm(monopole: Monopole, frequencyHz: number): Complex {
  const { atBaseOhm } = monopoleImpedance(monopole, frequencyHz);
  if (atBaseOhm === null) throw nearHalfWave(monopole, frequencyHz);
  return atBaseOhm;
}

/** kh, rad. @throws UserError `not-positive`, `too-tall` */
export function electricalHeightRad(monopole: Monopole, frequencyHz: number): number {
  requirePositive(monopole.heightM, 'antenna.height', 'metres');
  requirePositive(monopole.radiusM, 'antenna.diameter', 'metres');
  const wavelengths = monopole.heightM / wavelengthM(frequencyHz);
  if (wavelengths > TALLEST_WAVELENGTHS * (1 + 1e-9)) {
    throw new UserError(
      'too-tall',
      `a height of at most ${TALLEST_WAVELENGTHS} wavelengths is needed, got ${wavelengths.toFixed(3)} at ${(frequencyHz / 1e6).toFixed(3)} MHz`,
      { place: { field: 'antenna.height' } },
    );
  }
  return monopole.heightM * wavenumberPerM(frequencyHz);
}

/** Whether the sinusoid tells the base current at this height. */
export function isBaseCurrentTold(monopole: Monopole, frequencyHz: number): boolean {
  const kh = electricalHeightRad(monopole, frequencyHz);
  return kh < Math.PI / 2 || Math.abs(Math.sin(kh)) >= LEAST_BASE_CURRENT;
}

/** The error for a height at which the base current all but vanishes. */
export function nearHalfWave(monopole: Monopole, frequencyHz: number): UserError {
  const wavelengths = monopole.heightM / wavelengthM(frequencyHz);
  return new UserError(
    'near-half-wave',
    `the base impedance cannot be told this near to a half wave: a height under 0.41 or over 0.59 wavelengths is needed, got ${wavelengths.toFixed(3)} at ${(frequencyHz / 1e6).toFixed(3)} MHz`,
    { place: { field: 'antenna.height' } },
  );
}

/** Area under the current over the loop current, (1 − cos kh)/k, m. */
export function loopEffectiveHeightM(monopole: Monopole, frequencyHz: number): number {
  const kh = electricalHeightRad(monopole, frequencyHz);
  return (2 * Math.sin(kh / 2) ** 2) / wavenumberPerM(frequencyHz);
}

/**
 * Area under the current over the base current, tan(kh/2)/k, m; `null` near a half wave.
 *
 * @throws UserError `not-positive`, `too-tall`
 */
export function effectiveHeightM(monopole: Monopole, frequencyHz: number): number | null {
  if (!isBaseCurrentTold(monopole, frequencyHz)) return null;
  return Math.tan(electricalHeightRad(monopole, frequencyHz) / 2) / wavenumberPerM(frequencyHz);
}
