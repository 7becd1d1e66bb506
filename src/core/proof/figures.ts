import type { Band } from '../sweep/bands.ts';
import { findResonances, type Resonance } from '../sweep/resonance.ts';
import type { AnySweep } from '../sweep/sweep.ts';
import { bestSwr, dipAround, type SwrDip, summariseBand, swrDips } from '../sweep/swr-summary.ts';
import { around, refined } from './refined.ts';

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

/** The name of a compared figure. */
export type Measure = (typeof MEASURES)[number];

/** The figures of one sweep in one band; null for what cannot be had from it. */
export type Figures = Readonly<Record<Measure, number | null>>;

/** How far beyond a band a crossing may lie, as a ratio; wide enough for the 2:1 points of a wide antenna too. */
export const AROUND_BAND = 1.3;

const SWR_LIMIT = 2;

/**
 * The figures of a sweep, each at the sweep's own X = 0.
 *
 * @param sweep - already smoothed, so that one noisy point decides nothing
 * @param band - as far as the sweep covers it
 * @param anchorHz - see {@link resonanceFor}
 */
export function figuresOf(sweep: AnySweep, band: Band, anchorHz?: number): Figures {
  const entries = MEASURES.map((measure) => [measure, figureOf(measure, sweep, band, anchorHz)]);
  return Object.fromEntries(entries) as Record<Measure, number | null>;
}

/** One of them, for those who need it often. */
export function figureOf(measure: Measure, sweep: AnySweep, band: Band, anchorHz?: number): number | null {
  switch (measure) {
    case 'resonanceHz':
      return resonanceFor(sweep, band, anchorHz)?.frequencyHz ?? null;
    case 'resistanceAtResonanceOhm':
      return resonanceFor(sweep, band, anchorHz)?.resistanceOhm ?? null;
    case 'qualityFactor':
      return resonanceFor(sweep, band, anchorHz)?.qualityFactor ?? null;
    case 'minSwr':
      return bestSwr(sweep, sweep.referenceOhm, band.fromHz, band.toHz).swr;
    case 'worstSwr':
      return summariseBand(sweep, band)?.worstSwr ?? null;
    case 'meanReturnLossDb':
      return summariseBand(denseIn(sweep, band), band)?.meanReturnLossDb ?? null;
    case 'swr2BandwidthHz':
      return swr2BandwidthHz(sweep, band);
  }
}

/** Points in the band from which on the return loss, which has a sharp peak, is averaged well between them. */
const DENSE = 64;

/** The part of a sweep around a band, refined until it is dense there. */
function denseIn(sweep: AnySweep, band: Band): AnySweep {
  let dense = around(sweep, band);
  const inBand = (): number => dense.frequencyHz.filter((f) => f >= band.fromHz && f <= band.toHz).length;
  // A band between two points stays empty however often the rest is refined, so that the turns are counted.
  for (let turn = 0; turn < 6 && inBand() < DENSE; turn++) dense = refined(dense);
  return dense;
}

/** Width of the dip that holds the band's best SWR; null where there is none, or the sweep ends inside it. */
function swr2BandwidthHz(sweep: AnySweep, band: Band): number | null {
  const dip = bestDip(sweep, band);
  return dip === null || isOpen(dip) ? null : dip.toHz - dip.fromHz;
}

/** What a figure comes to at the least where a sweep ends too early to tell it; null for one that has no such bound. */
export function leastOf(measure: Measure, sweep: AnySweep, band: Band): number | null {
  const dip = measure === 'swr2BandwidthHz' ? bestDip(sweep, band) : null;
  return dip === null || !isOpen(dip) ? null : dip.toHz - dip.fromHz;
}

function bestDip(sweep: AnySweep, band: Band): SwrDip | null {
  const best = bestSwr(sweep, sweep.referenceOhm, band.fromHz, band.toHz);
  return best.frequencyHz === null ? null : dipAround(swrDips(sweep, SWR_LIMIT), best.frequencyHz);
}

function isOpen({ openBelow, openAbove }: SwrDip): boolean {
  return openBelow || openAbove;
}

/**
 * The crossing that stands for a band: a series one (X rising, as at the quarter wave) in the band if there is
 * any, else the nearest to it; a parallel one only where there is no series one.
 *
 * @param anchorHz - for repeats of one visit: the nearest crossing of any kind to this
 * @returns null when X never crosses zero near the band, or for a scalar sweep, which has no X
 */
export function resonanceFor(sweep: AnySweep, band: Band, anchorHz?: number): Resonance | null {
  if (sweep.kind === 'swr') return null;
  const all = findResonances(sweep).filter(
    ({ frequencyHz }) => frequencyHz > band.fromHz / AROUND_BAND && frequencyHz < band.toHz * AROUND_BAND,
  );
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
