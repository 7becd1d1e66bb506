import { reflectionColumns } from '../sweep/reflection.ts';
import { reflectionOnGrid } from '../sweep/repeats.ts';
import type { Sweep } from '../sweep/sweep.ts';
import type { Plane } from './plane.ts';
import { median } from './theil-sen.ts';

/** A stretch of frequency that visits share, cut into bins of neighbouring points. */
export interface Stretch {
  /** The points of the stretch, rising. */
  readonly gridHz: Float64Array;
  /** Index of the first point of each bin, and the end: length bins + 1. */
  readonly edges: readonly number[];
  /** Mean frequency of each bin. */
  readonly centreHz: Float64Array;
}

/** One shot over one stretch. */
export interface BinnedShot {
  /** Mean reflection per bin. */
  readonly re: Float64Array;
  readonly im: Float64Array;
  /** Standard deviation of the noise of Re Γ and Im Γ of a single point, from third differences. */
  readonly noise: number;
}

const FEWEST_BINS = 8;
const MOST_BINS = 40;
const BINS_PER_OCTAVE = 14;

/**
 * Cuts a grid into at most 40 bins of equal counts of points: enough for the smooth curve of an antenna, few enough
 * for a dense covariance, and the noise of neighbouring points averages out.
 *
 * @param gridHz - rising, length n ≥ 2
 */
export function cutIntoBins(gridHz: Float64Array): Stretch {
  const n = gridHz.length;
  const octaves = Math.log2((gridHz[n - 1] as number) / Math.max(1, gridHz[0] as number));
  const wanted = Math.round(Math.min(MOST_BINS, FEWEST_BINS + BINS_PER_OCTAVE * octaves));
  const bins = Math.min(wanted, n);
  const edges = Array.from({ length: bins + 1 }, (_, i) => Math.round((i * n) / bins));
  return { gridHz, edges, centreHz: binMeans(gridHz, edges) };
}

/**
 * Reflection of a shot averaged over the bins of a stretch; a shot on another grid is interpolated to it first.
 *
 * @param shot - covers the stretch
 */
export function binShot(shot: Sweep, stretch: Stretch, plane: Plane): BinnedShot {
  const { gridHz, edges } = stretch;
  const measured = hasGrid(shot, gridHz)
    ? reflectionColumns(shot, plane.referenceOhm)
    : reflectionOnGrid(shot, plane.referenceOhm, gridHz);
  const columns = plane.told(measured, gridHz);
  return {
    re: binMeans(columns.re, edges),
    im: binMeans(columns.im, edges),
    noise: Math.sqrt((noiseVariance(columns.re) + noiseVariance(columns.im)) / 2),
  };
}

function binMeans(column: Float64Array, edges: readonly number[]): Float64Array {
  return Float64Array.from({ length: edges.length - 1 }, (_, bin) => {
    const from = edges[bin] as number;
    const to = edges[bin + 1] as number;
    let sum = 0;
    for (let i = from; i < to; i++) sum += column[i] as number;
    return sum / (to - from);
  });
}

function hasGrid(shot: Sweep, gridHz: Float64Array): boolean {
  if (shot.frequencyHz.length !== gridHz.length) return false;
  for (let i = 0; i < gridHz.length; i++) if (shot.frequencyHz[i] !== gridHz[i]) return false;
  return true;
}

/**
 * Noise variance of a smooth column from its third differences, whose variance is 20σ²; by their median, so that a
 * few jumps of a bad contact do not pass for noise. 0 for less than 8 points.
 */
function noiseVariance(column: Float64Array): number {
  const n = column.length - 3;
  if (n < 5) return 0;
  const sizes = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    const [a, b, c, d] = column.subarray(i, i + 4) as unknown as [number, number, number, number];
    sizes[i] = Math.abs(d - 3 * c + 3 * b - a);
  }
  // The median of |N(0, s)| is 0.6745 s.
  return (median(sizes) / 0.6745) ** 2 / 20;
}
