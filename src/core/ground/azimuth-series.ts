import { type Complex, complex } from '../complex.ts';
import { besselSequence } from './bessel.ts';
import { wavenumberPerM } from './free-space.ts';
import type { GroundSystem } from './ground-system.ts';
import { radialCurrent } from './magnetic-field.ts';
import { integrate } from './quadrature.ts';
import { requireRadials } from './radial-field.ts';
import { type RingHarmonics, ringHarmonics } from './ring-harmonics.ts';
import { groundSurface } from './surface-impedance.ts';
import { wireGaps } from './wire-gaps.ts';

/** A complex function of the azimuth as its Fourier series. */
export interface AzimuthSeries {
  at(azimuthRad: number): Complex;
  readonly mean: Complex;
  /** Mean of |value − mean|² around the circle. */
  readonly ripplePower: number;
}

/** Of the largest term, which is worth 0.001 dB in the pattern. */
const TOLERANCE = 1e-3;

/**
 * The compensation integral ∬(η − Ze)·Hφ·cos(φ′ − φ)·exp(jkρ cos ψ cos(φ′ − φ))·ρ dρ dφ′ for one ampere
 * at the current loop, Ω·m, against the azimuth φ at each elevation ψ.
 *
 * With cos θ·e^{jx cos θ} = Σ (−j)j^m J′m(x)e^{jmθ} the integral over φ′ is a product, term by term, of
 * Bessel functions with the Fourier terms of the ring; only ρ is left to quadrature, and all elevations
 * and azimuths share it. Terms above kρ vanish, so that a dozen are enough.
 */
export function azimuthSeries(system: GroundSystem, elevationsRad: readonly number[]): AzimuthSeries[] {
  const { monopole, soil, field, frequencyHz } = system;
  requireRadials(field);
  const k = wavenumberPerM(frequencyHz);
  const gaps = wireGaps(field, frequencyHz);
  const order = Math.ceil(k * gaps.reachM + 4 * Math.cbrt(k * gaps.reachM) + 4);
  const harmonics = ringHarmonics(gaps, groundSurface(soil, frequencyHz), order);
  const cosines = elevationsRad.map(Math.cos);
  const width = 4 * (order + 1);
  const { value } = integrate(
    (rho, out) => {
      const terms = harmonics(rho);
      const current = radialCurrent(monopole, frequencyHz, rho);
      for (let e = 0; e < cosines.length; e += 1) {
        const bessel = besselSequence(k * rho * (cosines[e] as number), order + 1);
        weigh(terms, current, bessel, out, e * width);
      }
    },
    gaps.breakpointsM,
    { components: width * cosines.length, relativeTolerance: TOLERANCE },
  );
  return cosines.map((_, e) => series(value.subarray(e * width, (e + 1) * width)));
}

/** Writes F·(−j)j^m·J′m·(am, bm) from `start` on: Re am, Im am, Re bm, Im bm for each m. */
function weigh(
  terms: RingHarmonics,
  current: Complex,
  bessel: Float64Array,
  out: Float64Array,
  start: number,
): void {
  const { cosineRe, cosineIm, sineRe, sineIm } = terms;
  let re = current.im;
  let im = -current.re;
  for (let m = 0; m < cosineRe.length; m += 1) {
    const below = m === 0 ? -(bessel[1] as number) : (bessel[m - 1] as number);
    const slope = (below - (bessel[m + 1] as number)) / 2;
    const place = start + 4 * m;
    out[place] = slope * (re * (cosineRe[m] as number) - im * (cosineIm[m] as number));
    out[place + 1] = slope * (re * (cosineIm[m] as number) + im * (cosineRe[m] as number));
    out[place + 2] = slope * (re * (sineRe[m] as number) - im * (sineIm[m] as number));
    out[place + 3] = slope * (re * (sineIm[m] as number) + im * (sineRe[m] as number));
    const turned = -im;
    im = re;
    re = turned;
  }
}

function series(terms: Float64Array): AzimuthSeries {
  const [meanRe = 0, meanIm = 0] = terms;
  let ripplePower = 0;
  for (let i = 4; i < terms.length; i += 1) ripplePower += (terms[i] as number) ** 2 / 2;
  return {
    mean: complex(meanRe, meanIm),
    ripplePower,
    at(azimuthRad) {
      let re = meanRe;
      let im = meanIm;
      for (let m = 1; 4 * m < terms.length; m += 1) {
        const cosine = Math.cos(m * azimuthRad);
        const sine = Math.sin(m * azimuthRad);
        re += cosine * (terms[4 * m] as number) + sine * (terms[4 * m + 2] as number);
        im += cosine * (terms[4 * m + 1] as number) + sine * (terms[4 * m + 3] as number);
      }
      return { re, im };
    },
  };
}
