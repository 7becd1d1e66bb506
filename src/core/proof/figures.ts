import type { Band } from '../sweep/bands.ts';
import { findResonances, type Resonance } from '../sweep/resonance.ts';
import type { AnySweep } from '../sweep/sweep.ts';
import { bestSwr, dipAround, summariseBand, swrDips } from '../sweep/swr-summary.ts';

/** What is compared of a band, in the order in which it is shown. */
export const MEASURES = [
  'resonanceHz',
  'resistanceAtResonanceOhm',
  'minSwr',
  'worstSwr',
  'meanReturnLossDb',
  'swr2BandwidthHz',
  'qualityFactor',
] as const;

export type Measure = (typeof MEASURES)[number];

/** The figures of one sweep in one band; null for what cannot be had from it. */
export type Figures = Readonly<Record<Measure, number | null>>;

const SWR_LIMIT = 2;

/**
 * The figures of a sweep, each at the sweep's own X = 0.
 *
 * @param sweep - already smoothed, so that one noisy point decides nothing
 * @param band - as far as the sweep covers it
 * @param resonance - the crossing to use, from {@link resonanceFor}
 */
export function figuresOf(sweep: AnySweep, band: Band, resonance: Resonance | null): Figures {
  const summary = summariseBand(sweep, band);
  const best = bestSwr(sweep, sweep.referenceOhm, band.fromHz, band.toHz);
  const dip = best.frequencyHz === null ? null : dipAround(swrDips(sweep, SWR_LIMIT), best.frequencyHz);
  return {
    resonanceHz: resonance?.frequencyHz ?? null,
    resistanceAtResonanceOhm: resonance?.resistanceOhm ?? null,
    minSwr: best.swr,
    worstSwr: summary?.worstSwr ?? null,
    meanReturnLossDb: summary?.meanReturnLossDb ?? null,
    swr2BandwidthHz: dip === null || dip.openBelow || dip.openAbove ? null : dip.toHz - dip.fromHz,
    qualityFactor: resonance?.qualityFactor ?? null,
  };
}

/**
 * The crossing that stands for a band: a series one (X rising, as at the quarter wave) in the band if there is
 * any, else the nearest to it; a parallel one only where there is no series one.
 *
 * @param anchorHz - for repeats of one visit: the nearest crossing of any kind to this
 * @returns null when X never crosses zero, or for a scalar sweep, which has no X
 */
export function resonanceFor(sweep: AnySweep, band: Band, anchorHz?: number): Resonance | null {
  if (sweep.kind === 'swr') return null;
  const all = findResonances(sweep);
  if (anchorHz !== undefined) return nearest(all, (f) => Math.abs(f - anchorHz));
  const series = all.filter((crossing) => crossing.kind === 'series');
  const centreHz = (band.fromHz + band.toHz) / 2;
  const halfHz = (band.toHz - band.fromHz) / 2;
  // Every place inside the band is as near as any other, but for breaking ties.
  const fromBandHz = (f: number): number =>
    Math.max(0, Math.abs(f - centreHz) - halfHz) + 1e-6 * Math.abs(f - centreHz);
  return nearest(series.length > 0 ? series : all, fromBandHz);
}

function nearest(
  crossings: readonly Resonance[],
  distance: (frequencyHz: number) => number,
): Resonance | null {
  let best: Resonance | null = null;
  for (const crossing of crossings) {
    if (best === null || distance(crossing.frequencyHz) < distance(best.frequencyHz)) best = crossing;
  }
  return best;
}
