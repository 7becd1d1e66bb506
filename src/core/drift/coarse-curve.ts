import { reflectionColumns } from '../sweep/reflection.ts';
import type { Sweep } from '../sweep/sweep.ts';

/** Γ averaged over a few equal stretches of a sweep: enough to see that its shape has changed. */
export interface CoarseCurve {
  readonly fromHz: number;
  readonly toHz: number;
  /** Re Γ of each stretch, then Im Γ; length 2·{@link COARSE_BINS}. */
  readonly reflection: Float64Array;
}

export const COARSE_BINS = 8;

/** @returns null for a sweep of fewer points than stretches */
export function coarseCurve(sweep: Sweep): CoarseCurve | null {
  const n = sweep.frequencyHz.length;
  if (n < COARSE_BINS) return null;
  const { re, im } = reflectionColumns(sweep);
  const reflection = new Float64Array(2 * COARSE_BINS);
  for (let bin = 0; bin < COARSE_BINS; bin++) {
    const from = Math.floor((bin * n) / COARSE_BINS);
    const to = Math.floor(((bin + 1) * n) / COARSE_BINS);
    for (let i = from; i < to; i++) {
      reflection[bin] = (reflection[bin] as number) + (re[i] as number) / (to - from);
      reflection[COARSE_BINS + bin] =
        (reflection[COARSE_BINS + bin] as number) + (im[i] as number) / (to - from);
    }
  }
  return { fromHz: sweep.frequencyHz[0] as number, toHz: sweep.frequencyHz[n - 1] as number, reflection };
}

/** Mean of curves over the range of the first; null when there are none of that range. */
export function meanCurve(curves: readonly (CoarseCurve | null)[]): CoarseCurve | null {
  const first = curves.find((curve) => curve !== null);
  if (first === undefined) return null;
  const same = curves.filter((curve) => curve !== null && hasRangeOf(curve, first)) as CoarseCurve[];
  const reflection = new Float64Array(2 * COARSE_BINS);
  for (const curve of same) {
    for (let i = 0; i < reflection.length; i++) {
      reflection[i] = (reflection[i] as number) + (curve.reflection[i] as number) / same.length;
    }
  }
  return { ...first, reflection };
}

/** Root mean square distance in Γ; null for curves of another range. */
export function curveDistance(a: CoarseCurve, b: CoarseCurve): number | null {
  if (!hasRangeOf(a, b)) return null;
  let sum = 0;
  for (let i = 0; i < a.reflection.length; i++) {
    sum += ((a.reflection[i] as number) - (b.reflection[i] as number)) ** 2;
  }
  return Math.sqrt(sum / COARSE_BINS);
}

function hasRangeOf(a: CoarseCurve, b: CoarseCurve): boolean {
  const tolerance = 0.01 * (b.toHz - b.fromHz);
  return Math.abs(a.fromHz - b.fromHz) < tolerance && Math.abs(a.toHz - b.toHz) < tolerance;
}
