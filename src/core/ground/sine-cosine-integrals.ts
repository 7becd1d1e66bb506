/** Euler's constant γ. */
export const EULER_GAMMA = 0.577_215_664_901_532_9;

const SERIES_LIMIT = 4;

/** Si and Ci at one argument. */
export interface SineCosineIntegrals {
  readonly si: number;
  readonly ci: number;
}

/**
 * Both integrals at once, to about 1e-15 absolute: Si(x) = ∫₀ˣ sin t/t dt and
 * Ci(x) = γ + ln x + ∫₀ˣ (cos t − 1)/t dt.
 *
 * The power series loses digits above x = 4, where the continued fraction of E1(jx) takes over:
 * it needs fewer terms the larger x is.
 *
 * @param x - above 0
 * Source: M. Abramowitz and I. A. Stegun, Handbook of Mathematical Functions (1964),
 * 5.2.14, 5.2.16 (series), 5.2.21, 5.2.23 (relation to E1) and 5.1.22 (continued fraction).
 */
export function sineCosineIntegrals(x: number): SineCosineIntegrals {
  if (x <= SERIES_LIMIT) return { si: sineSeries(x), ci: EULER_GAMMA + Math.log(x) - cosineSeries(x) };
  return integralsByFraction(x);
}

/** Si(x); odd in x. */
export function sineIntegral(x: number): number {
  if (x < 0) return -sineIntegral(-x);
  return x <= SERIES_LIMIT ? sineSeries(x) : integralsByFraction(x).si;
}

/** Ci(x), x above 0; minus infinity at 0. */
export function cosineIntegral(x: number): number {
  return x === 0 ? Number.NEGATIVE_INFINITY : sineCosineIntegrals(x).ci;
}

/**
 * Cin(x) = ∫₀ˣ (1 − cos t)/t dt; even in x. Near zero it keeps the digits that γ + ln x − Ci(x)
 * would lose.
 */
export function entireCosineIntegral(x: number): number {
  const size = Math.abs(x);
  if (size <= SERIES_LIMIT) return cosineSeries(size);
  return EULER_GAMMA + Math.log(size) - integralsByFraction(size).ci;
}

function sineSeries(x: number): number {
  const square = x * x;
  let term = x;
  let sum = x;
  for (let n = 3; Math.abs(term) > 1e-17 * Math.abs(sum); n += 2) {
    term *= -square / (n * (n - 1));
    sum += term / n;
  }
  return sum;
}

function cosineSeries(x: number): number {
  const square = x * x;
  let term = square / 2;
  let sum = term / 2;
  for (let n = 4; Math.abs(term) > 1e-17 * sum; n += 2) {
    term *= -square / (n * (n - 1));
    sum += term / n;
  }
  return sum;
}

/** E1(jx) = −Ci(x) + j(Si(x) − π/2), its even continued fraction summed by the method of Lentz and Steed. */
function integralsByFraction(x: number): SineCosineIntegrals {
  let bRe = 1;
  let dRe = 1 / (1 + x * x);
  let dIm = -x * dRe;
  let cRe = 1e300;
  let cIm = 0;
  let hRe = dRe;
  let hIm = dIm;
  for (let n = 1; n < 500; n += 1) {
    const a = -n * n;
    bRe += 2;
    const denominatorRe = a * dRe + bRe;
    const denominatorIm = a * dIm + x;
    const size = denominatorRe * denominatorRe + denominatorIm * denominatorIm;
    dRe = denominatorRe / size;
    dIm = -denominatorIm / size;
    const cSize = cRe * cRe + cIm * cIm;
    const nextRe = n === 1 ? bRe : bRe + (a * cRe) / cSize;
    cIm = n === 1 ? x : x - (a * cIm) / cSize;
    cRe = nextRe;
    const stepRe = cRe * dRe - cIm * dIm;
    const stepIm = cRe * dIm + cIm * dRe;
    const grownRe = hRe * stepRe - hIm * stepIm;
    hIm = hRe * stepIm + hIm * stepRe;
    hRe = grownRe;
    if (Math.abs(stepRe - 1) + Math.abs(stepIm) < 2e-16) break;
  }
  const cosine = Math.cos(x);
  const sine = Math.sin(x);
  return { si: Math.PI / 2 + cosine * hIm - sine * hRe, ci: -(cosine * hRe + sine * hIm) };
}
