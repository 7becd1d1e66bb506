/** A complex scalar. Arrays of complex values are two `Float64Array` columns instead. */
export interface Complex {
  readonly re: number;
  readonly im: number;
}

/** 0. */
export const ZERO: Complex = { re: 0, im: 0 };
/** 1. */
export const ONE: Complex = { re: 1, im: 0 };

/** A complex number from its parts. */
export function complex(re: number, im = 0): Complex {
  return { re, im };
}

/** Magnitude and angle (rad) to rectangular form. */
export function polar(magnitude: number, angleRad: number): Complex {
  return { re: magnitude * Math.cos(angleRad), im: magnitude * Math.sin(angleRad) };
}

/** a + b. */
export function add(a: Complex, b: Complex): Complex {
  return { re: a.re + b.re, im: a.im + b.im };
}

/** a − b. */
export function subtract(a: Complex, b: Complex): Complex {
  return { re: a.re - b.re, im: a.im - b.im };
}

/** a·b. */
export function multiply(a: Complex, b: Complex): Complex {
  return { re: a.re * b.re - a.im * b.im, im: a.re * b.im + a.im * b.re };
}

/** a times a real factor. */
export function scale(a: Complex, factor: number): Complex {
  return { re: a.re * factor, im: a.im * factor };
}

/** Quotient a/b, scaled by the larger part of b so that it does not overflow (R. L. Smith, CACM 5(8), 1962). */
export function divide(a: Complex, b: Complex): Complex {
  if (Math.abs(b.re) >= Math.abs(b.im)) {
    const ratio = b.im / b.re;
    const denominator = b.re + b.im * ratio;
    return { re: (a.re + a.im * ratio) / denominator, im: (a.im - a.re * ratio) / denominator };
  }
  const ratio = b.re / b.im;
  const denominator = b.re * ratio + b.im;
  return { re: (a.re * ratio + a.im) / denominator, im: (a.im * ratio - a.re) / denominator };
}

/** 1/a. */
export function reciprocal(a: Complex): Complex {
  return divide(ONE, a);
}

/** The same real part and the opposite imaginary part. */
export function conjugate(a: Complex): Complex {
  return { re: a.re, im: -a.im };
}

/** |a|, without overflow on the way. */
export function magnitude(a: Complex): number {
  return Math.hypot(a.re, a.im);
}

/** Angle in rad, -π to π. */
export function angleRad(a: Complex): number {
  return Math.atan2(a.im, a.re);
}

/** Principal square root, real part ≥ 0. */
export function squareRoot(a: Complex): Complex {
  const size = magnitude(a);
  const re = Math.sqrt((size + Math.abs(a.re)) / 2);
  if (re === 0) return ZERO;
  const im = Math.abs(a.im) / (2 * re);
  const sign = a.im < 0 ? -1 : 1;
  return a.re >= 0 ? { re, im: sign * im } : { re: im, im: sign * re };
}

/** e to the power a. */
export function exponential(a: Complex): Complex {
  return polar(Math.exp(a.re), a.im);
}
