import type { Complex } from '../complex.ts';
import { wavenumberPerM } from './free-space.ts';
import { electricalHeightRad, type Monopole } from './monopole.ts';
import { sineCosineIntegrals } from './sine-cosine-integrals.ts';

/**
 * ∫ |F|²/(2πρ) dρ over a bare ring, where F is the radial current of magnetic-field.ts: times Re η it
 * is the ring's loss resistance at the current loop.
 *
 * In closed form: |F|² = 1 + cos²kh − 2 cos kh·cos k(r − ρ) with r = √(ρ² + h²), and v = r − ρ turns
 * dρ/ρ into partial fractions of v, each a sine or cosine integral.
 *
 * @param fromM - above 0
 * @param toM - at least fromM
 */
export function bareRingLossFactor(
  monopole: Monopole,
  frequencyHz: number,
  fromM: number,
  toM: number,
): number {
  const kh = electricalHeightRad(monopole, frequencyHz);
  const k = wavenumberPerM(frequencyHz);
  const cosine = Math.cos(kh);
  const sine = Math.sin(kh);
  const h = monopole.heightM;
  const primitive = (rho: number): number => {
    const slant = Math.hypot(rho, h);
    const v = (h * h) / (slant + rho);
    const beyond = sineCosineIntegrals(k * (h + v));
    const within = sineCosineIntegrals((k * rho * (h + slant - rho)) / (h + slant));
    return sineCosineIntegrals(k * v).ci - cosine * (beyond.ci + within.ci) - sine * (beyond.si + within.si);
  };
  const crossed = primitive(fromM) - primitive(toM);
  return ((1 + cosine * cosine) * Math.log(toM / fromM) - 2 * cosine * crossed) / (2 * Math.PI);
}

/**
 * ∫ F²/(2πρ) dρ from a distance to infinity: times η it is what bare soil beyond that distance adds to
 * the impedance at the current loop.
 *
 * In closed form: F² = −[e^{−2jkr} − 2cos kh·e^{−jk(r+ρ)} + cos²kh·e^{−2jkρ}], and r, r + ρ and ρ
 * as variables turn dρ/ρ into partial fractions, each an exponential integral E1 of imaginary argument.
 *
 * @param fromM - above 0
 */
export function bareSoilReaction(monopole: Monopole, frequencyHz: number, fromM: number): Complex {
  const kh = electricalHeightRad(monopole, frequencyHz);
  const k = wavenumberPerM(frequencyHz);
  const cosine = Math.cos(kh);
  const h = monopole.heightM;
  const slant = Math.hypot(fromM, h);
  const sum = { re: 0, im: 0 };
  /** Adds weight·e^{jθ}·E1(jx). */
  const add = (weight: number, turnRad: number, x: number): void => {
    const { si, ci } = sineCosineIntegrals(x);
    const re = -ci;
    const im = si - Math.PI / 2;
    sum.re += weight * (Math.cos(turnRad) * re - Math.sin(turnRad) * im);
    sum.im += weight * (Math.cos(turnRad) * im + Math.sin(turnRad) * re);
  };
  const beyond = (fromM * fromM) / (slant + h);
  add(0.5, -2 * kh, 2 * k * beyond);
  add(0.5, 2 * kh, 2 * k * (slant + h));
  add(2 * cosine, 0, k * (slant + fromM));
  add(-2 * cosine, -kh, k * (fromM + beyond));
  add(-2 * cosine, kh, k * (slant + fromM + h));
  add(cosine * cosine, 0, 2 * k * fromM);
  return { re: -sum.re / (2 * Math.PI), im: -sum.im / (2 * Math.PI) };
}
