import type { Complex } from '../complex.ts';
import { wavenumberPerM } from './free-space.ts';
import { electricalHeightRad, type Monopole } from './monopole.ts';

/**
 * Magnetic field on the ground around a monopole with sinusoidal current, as the total radial
 * current it stands for: 2πρHφ/Iloop = j[exp(−jk√(ρ²+h²)) − cos kh·exp(−jkρ)], dimensionless.
 *
 * Divide by sin kh to refer it to the base current; near the base its size tends to |sin kh|, and at
 * a quarter wave it is 1 everywhere.
 *
 * @param distanceM - ρ from the base, 0 or more
 * @throws UserError `not-positive`, `too-tall`
 * Source: S. A. Schelkunoff and H. T. Friis, Antennas: Theory and Practice (1952); C. A. Balanis,
 * Antenna Theory, ch. 8; in the form of J. R. Wait and W. A. Pope (1954).
 */
export function radialCurrent(monopole: Monopole, frequencyHz: number, distanceM: number): Complex {
  const kh = electricalHeightRad(monopole, frequencyHz);
  const wavenumber = wavenumberPerM(frequencyHz);
  const slantRad = wavenumber * Math.hypot(distanceM, monopole.heightM);
  const groundRad = wavenumber * distanceM;
  const cosine = Math.cos(kh);
  return {
    re: Math.sin(slantRad) - cosine * Math.sin(groundRad),
    im: Math.cos(slantRad) - cosine * Math.cos(groundRad),
  };
}

/** Hφ on the ground, A/m, for one ampere at the current loop. ρ above 0. */
export function magneticField(monopole: Monopole, frequencyHz: number, distanceM: number): Complex {
  const current = radialCurrent(monopole, frequencyHz, distanceM);
  const around = 2 * Math.PI * distanceM;
  return { re: current.re / around, im: current.im / around };
}
