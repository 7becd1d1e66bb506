import type { Band } from '../sweep/bands.ts';
import { reflectionColumns } from '../sweep/reflection.ts';
import { averageShots } from '../sweep/repeats.ts';
import type { Sweep } from '../sweep/sweep.ts';
import type { Component } from './welch.ts';

/**
 * Variance of the reflection, per component, that the same load shows from visit to visit: what calibration and
 * connector really do, whatever the maker states. The load's own value does not matter.
 *
 * @param loads - the sweeps of the reference load of each visit; visits without any are left out
 * @returns null for fewer than two visits that cover the band
 */
export function referenceLoadScatter(loads: readonly (readonly Sweep[])[], band: Band): Component | null {
  const points = loads
    .filter((sweeps) => sweeps.length > 0)
    .map((sweeps) => meanReflection(averageShots(sweeps).mean, band))
    .filter((point) => point !== null);
  if (points.length < 2) return null;
  const re = points.reduce((sum, point) => sum + point.re, 0) / points.length;
  const im = points.reduce((sum, point) => sum + point.im, 0) / points.length;
  const degreesOfFreedom = 2 * (points.length - 1);
  const squares = points.reduce((sum, point) => sum + (point.re - re) ** 2 + (point.im - im) ** 2, 0);
  return { variance: squares / degreesOfFreedom, degreesOfFreedom };
}

function meanReflection(sweep: Sweep, band: Band): { re: number; im: number } | null {
  const { re, im } = reflectionColumns(sweep);
  let count = 0;
  let [sumRe, sumIm] = [0, 0];
  sweep.frequencyHz.forEach((f, i) => {
    if (f < band.fromHz || f > band.toHz) return;
    count++;
    sumRe += re[i] as number;
    sumIm += im[i] as number;
  });
  return count === 0 ? null : { re: sumRe / count, im: sumIm / count };
}
