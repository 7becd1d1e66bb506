import { reflectionOnGrid } from '../sweep/repeats.ts';
import type { Sweep } from '../sweep/sweep.ts';

/** Γ averaged over a few equal stretches of a range: enough to see that its shape has changed. */
export interface CoarseCurve {
  readonly fromHz: number;
  readonly toHz: number;
  /** Re Γ of each stretch, then Im Γ; length 2·{@link COARSE_BINS}. */
  readonly reflection: Float64Array;
}

/** Parts of a band into which a curve is averaged. */
export const COARSE_BINS = 8;
const SAMPLES_IN_BIN = 3;
const SAMPLES = COARSE_BINS * SAMPLES_IN_BIN;

/**
 * The rough curve of a range, whatever the grid of the sweep, so that a wide sweep and a narrow one can be compared.
 *
 * @param range - within the sweep
 */
export function coarseCurve(
  sweep: Sweep,
  { fromHz, toHz }: { readonly fromHz: number; readonly toHz: number },
): CoarseCurve {
  const gridHz = new Float64Array(SAMPLES);
  for (let i = 0; i < SAMPLES; i++) gridHz[i] = fromHz + ((toHz - fromHz) * i) / (SAMPLES - 1);
  const { re, im } = reflectionOnGrid(sweep, sweep.referenceOhm, gridHz);
  const reflection = new Float64Array(2 * COARSE_BINS);
  for (let i = 0; i < SAMPLES; i++) {
    const bin = Math.floor(i / SAMPLES_IN_BIN);
    reflection[bin] = (reflection[bin] as number) + (re[i] as number) / SAMPLES_IN_BIN;
    reflection[COARSE_BINS + bin] =
      (reflection[COARSE_BINS + bin] as number) + (im[i] as number) / SAMPLES_IN_BIN;
  }
  return { fromHz, toHz, reflection };
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
