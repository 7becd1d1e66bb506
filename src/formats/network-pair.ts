import type { Complex } from '../core/complex.ts';
import { impedanceToReflection, reflectionToImpedance } from '../core/sweep/reflection.ts';

/** What a pair of numbers is: reflection coefficient, admittance or impedance. */
export type NetworkParameter = 'S' | 'Y' | 'Z';

/** How it is written: real and imaginary part, size and angle, or 20·log10 of the size and angle (degrees). */
export type PairFormat = 'RI' | 'MA' | 'DB';

/** All that is needed to turn a pair into ohms and back. */
export interface PairMeaning {
  readonly parameter: NetworkParameter;
  readonly format: PairFormat;
  readonly referenceOhm: number;
  /** True where Z and Y are given relative to the reference (Touchstone 1), false for ohms and siemens. */
  readonly normalised: boolean;
}

const RAD_PER_DEG = Math.PI / 180;

/**
 * A pair as written in a file as impedance in ohms.
 * Source: Touchstone File Format Specification 2.1 (2024), option line and single-port data.
 *
 * @returns null where there is none: an open circuit, or a number out of range
 */
export function pairToImpedance(meaning: PairMeaning, first: number, second: number): Complex | null {
  const value = fromPair(meaning.format, first, second);
  const impedance = toImpedance(meaning, value);
  return impedance !== null && Number.isFinite(impedance.re) && Number.isFinite(impedance.im)
    ? impedance
    : null;
}

/**
 * An impedance as a pair for a file.
 * @returns null where the form has no number for it: S at Z = −R, Y at Z = 0, dB of zero
 */
export function impedanceToPair(
  meaning: PairMeaning,
  impedance: Complex,
): readonly [first: number, second: number] | null {
  const value = fromImpedance(meaning, impedance);
  if (value === null) return null;
  if (meaning.format === 'RI') return [value.re, value.im];
  const size = Math.hypot(value.re, value.im);
  const angleDeg = Math.atan2(value.im, value.re) / RAD_PER_DEG;
  if (meaning.format === 'MA') return [size, angleDeg];
  return size === 0 ? null : [20 * Math.log10(size), angleDeg];
}

function fromPair(format: PairFormat, first: number, second: number): Complex {
  if (format === 'RI') return { re: first, im: second };
  const size = format === 'MA' ? first : 10 ** (first / 20);
  const angle = second * RAD_PER_DEG;
  return { re: size * Math.cos(angle), im: size * Math.sin(angle) };
}

function toImpedance(meaning: PairMeaning, value: Complex): Complex | null {
  const { parameter, referenceOhm } = meaning;
  if (parameter === 'S') return reflectionToImpedance(value, referenceOhm);
  const scale = meaning.normalised ? referenceOhm : 1;
  return parameter === 'Z' ? { re: value.re * scale, im: value.im * scale } : reciprocal(value, scale);
}

function fromImpedance(meaning: PairMeaning, impedance: Complex): Complex | null {
  const { parameter, referenceOhm } = meaning;
  if (parameter === 'S') return impedanceToReflection(impedance, referenceOhm);
  const scale = meaning.normalised ? referenceOhm : 1;
  return parameter === 'Z'
    ? { re: impedance.re / scale, im: impedance.im / scale }
    : reciprocal(impedance, scale);
}

/** scale / value; null at zero. */
function reciprocal(value: Complex, scale: number): Complex | null {
  const size = value.re * value.re + value.im * value.im;
  return size === 0 ? null : { re: (scale * value.re) / size, im: 0 - (scale * value.im) / size };
}
