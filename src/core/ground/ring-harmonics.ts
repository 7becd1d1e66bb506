import { addGap, clearRing, emptyRing, type GroundSurface } from './surface-impedance.ts';
import type { WireGaps } from './wire-gaps.ts';

/** Fourier terms around a ring: a0 + Σ am·cos mφ + bm·sin mφ, complex, φ the azimuth clockwise from true north. */
export interface RingHarmonics {
  readonly cosineRe: Float64Array;
  readonly cosineIm: Float64Array;
  readonly sineRe: Float64Array;
  readonly sineIm: Float64Array;
}

/**
 * Returns a function that analyses, on a ring, by how much the wires lower the surface impedance:
 * η − Ze. It is constant across a gap, so each term is a sum over the gaps in closed form. The result is
 * reused from call to call.
 *
 * @param order - the highest term
 */
export function ringHarmonics(
  gaps: WireGaps,
  surface: GroundSurface,
  order: number,
): (distanceM: number) => RingHarmonics {
  const terms: RingHarmonics = {
    cosineRe: new Float64Array(order + 1),
    cosineIm: new Float64Array(order + 1),
    sineRe: new Float64Array(order + 1),
    sineIm: new Float64Array(order + 1),
  };
  const gapRing = emptyRing();
  return (distanceM) => {
    for (const column of Object.values(terms)) column.fill(0);
    let meanRe = 0;
    let meanIm = 0;
    gaps.forEach(distanceM, (gap, fromRad) => {
      clearRing(gapRing);
      addGap(surface, gap, 1, gapRing);
      const { resistanceOhm: re, reactanceOhm: im } = gapRing;
      meanRe += gap.share * re;
      meanIm += gap.share * im;
      addStep(terms, fromRad, re, im);
      addStep(terms, fromRad + 2 * Math.PI * gap.share, -re, -im);
    });
    terms.cosineRe[0] = surface.soilOhm.re - meanRe;
    terms.cosineIm[0] = surface.soilOhm.im - meanIm;
    return terms;
  };
}

/** Terms of a step of Ze at an azimuth, which η − Ze takes the other way. */
function addStep(terms: RingHarmonics, azimuthRad: number, riseRe: number, riseIm: number): void {
  const { cosineRe, cosineIm, sineRe, sineIm } = terms;
  const turnCosine = Math.cos(azimuthRad);
  const turnSine = Math.sin(azimuthRad);
  let cosine = 1;
  let sine = 0;
  for (let m = 1; m < cosineRe.length; m += 1) {
    const next = cosine * turnCosine - sine * turnSine;
    sine = sine * turnCosine + cosine * turnSine;
    cosine = next;
    const weight = 1 / (Math.PI * m);
    cosineRe[m] = (cosineRe[m] as number) + weight * riseRe * sine;
    cosineIm[m] = (cosineIm[m] as number) + weight * riseIm * sine;
    sineRe[m] = (sineRe[m] as number) - weight * riseRe * cosine;
    sineIm[m] = (sineIm[m] as number) - weight * riseIm * cosine;
  }
}
