import type { Complex } from '../complex.ts';
import type { AnySweep, Sweep } from './sweep.ts';

/**
 * Reflection coefficient of an impedance against a real reference: Γ = (Z − R0)/(Z + R0).
 * At the pole Z = −R0 there is none: null.
 *
 * Source: any text on transmission lines, e.g. D. M. Pozar, Microwave Engineering, eq. (2.35).
 */
export function impedanceToReflection(impedance: Complex, referenceOhm: number): Complex | null {
  const sum = impedance.re + referenceOhm;
  const size = sum * sum + impedance.im * impedance.im;
  if (size === 0) return null;
  const difference = impedance.re - referenceOhm;
  return {
    re: (difference * sum + impedance.im * impedance.im) / size,
    im: (2 * referenceOhm * impedance.im) / size,
  };
}

/** Impedance of a reflection coefficient: Z = R0 (1 + Γ)/(1 − Γ); null at Γ = 1, an open circuit. */
export function reflectionToImpedance(reflection: Complex, referenceOhm: number): Complex | null {
  const open = 1 - reflection.re;
  const size = open * open + reflection.im * reflection.im;
  if (size === 0) return null;
  return {
    re: (referenceOhm * (1 - reflection.re * reflection.re - reflection.im * reflection.im)) / size,
    im: (2 * referenceOhm * reflection.im) / size,
  };
}

/** SWR = (1 + |Γ|)/(1 − |Γ|); null for |Γ| ≥ 1, where no passive load gives an SWR. */
export function swrOfReflection(size: number): number | null {
  return size >= 0 && size < 1 ? (1 + size) / (1 - size) : null;
}

/** |Γ| = (SWR − 1)/(SWR + 1). */
export function reflectionOfSwr(swr: number): number {
  return (swr - 1) / (swr + 1);
}

/** Return loss −20 log10|Γ|, dB ≥ 0; null for Γ = 0 (it has no end) and for |Γ| > 1. */
export function returnLossDb(size: number): number | null {
  return size > 0 && size <= 1 ? -20 * Math.log10(size) + 0 : null;
}

/** Mismatch loss −10 log10(1 − |Γ|²), dB; null for |Γ| ≥ 1, where nothing is delivered. */
export function mismatchLossDb(size: number): number | null {
  return size >= 0 && size < 1 ? -10 * Math.log10(1 - size * size) + 0 : null;
}

/** |Γ| of an impedance; 1 or more for R ≤ 0, and infinite only at Z = −R0 exactly. */
export function reflectionSize(resistanceOhm: number, reactanceOhm: number, referenceOhm: number): number {
  const difference = resistanceOhm - referenceOhm;
  const sum = resistanceOhm + referenceOhm;
  const x = reactanceOhm;
  const square = (difference * difference + x * x) / (sum * sum + x * x);
  // Squares overflow or vanish for impedances that no antenna has; hypot does not, but takes ten times as long.
  if (square > LEAST_SQUARE && square < LARGEST_SQUARE) return Math.sqrt(square);
  return Math.hypot(difference, x) / Math.hypot(sum, x);
}

const [LEAST_SQUARE, LARGEST_SQUARE] = [1e-280, 1e280];

/**
 * |Γ| of every point, length n; NaN where a scalar sweep gave nothing.
 *
 * @param referenceOhm - the sweep's own unless given (a scalar sweep knows no other)
 */
export function reflectionSizes(sweep: AnySweep, referenceOhm: number = sweep.referenceOhm): Float64Array {
  const n = sweep.frequencyHz.length;
  const sizes = new Float64Array(n);
  if (sweep.kind === 'swr') {
    for (let i = 0; i < n; i++) sizes[i] = reflectionOfSwr(sweep.swr[i] as number);
  } else {
    for (let i = 0; i < n; i++) {
      sizes[i] = reflectionSize(
        sweep.resistanceOhm[i] as number,
        sweep.reactanceOhm[i] as number,
        referenceOhm,
      );
    }
  }
  return sizes;
}

/** Reflection coefficients of a sweep in two columns of length n; NaN at Z = −R0. */
export function reflectionColumns(
  sweep: Sweep,
  referenceOhm: number = sweep.referenceOhm,
): { re: Float64Array; im: Float64Array } {
  const n = sweep.frequencyHz.length;
  const re = new Float64Array(n);
  const im = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    const x = sweep.reactanceOhm[i] as number;
    const sum = (sweep.resistanceOhm[i] as number) + referenceOhm;
    const size = sum * sum + x * x;
    re[i] = (((sweep.resistanceOhm[i] as number) - referenceOhm) * sum + x * x) / size;
    im[i] = (2 * referenceOhm * x) / size;
  }
  return { re, im };
}
