import type { ReferencePlane } from '../core/record.ts';
import type { Band } from '../core/sweep/bands.ts';
import { isGap } from '../core/sweep/gap.ts';
import { findResonances } from '../core/sweep/resonance.ts';
import type { AnySweep } from '../core/sweep/sweep.ts';
import {
  type BandSummary,
  bestSwr,
  dipAround,
  type SwrDip,
  summariseBand,
  swrDips,
} from '../core/sweep/swr-summary.ts';

/** The SWR limit of the bandwidth in reports. */
const SWR_LIMIT = 2;

/** What `read --json` says of one sweep; a figure that cannot be had is null. */
export interface SweepReport {
  readonly file: string;
  /** Which sweep of its file, from 1. */
  readonly shot: number;
  /** `swr`: the file holds no more than the size of the reflection, so that resonance cannot be had. */
  readonly kind: AnySweep['kind'];
  readonly plane: ReferencePlane;
  readonly points: number;
  readonly fromHz: number;
  readonly toHz: number;
  readonly referenceOhm: number;
  readonly minSwr: number | null;
  readonly minSwrHz: number | null;
  readonly resonances: readonly ResonanceReport[];
  readonly bands: readonly BandReport[];
  /** What the figures cannot tell, in words. */
  readonly notes: readonly string[];
}

/** Said of a sweep of which only the size of the reflection is known. */
export const NO_RESONANCE =
  'the file gives the size of the reflection but not the sign of X, so no resonance can be found from it';

interface ResonanceReport {
  readonly frequencyHz: number;
  readonly resistanceOhm: number;
  readonly kind: 'series' | 'parallel';
  readonly qualityFactor: number | null;
}

/** What a sweep says of one band: of its summary what is told, and the width of the dip. */
export interface BandReport extends Omit<BandSummary, 'meanReturnLossDb' | 'pointsWithoutSwr'> {
  /** Width of the SWR ≤ 2 dip that holds the band's best SWR; null where it never gets there. */
  readonly swr2BandwidthHz: number | null;
  /** True where the sweep ends inside that dip: the bandwidth is at least so much. */
  readonly swr2OpenEnded: boolean;
}

/** Everything `read` says of one sweep, in figures. */
export function reportSweep(
  file: string,
  shot: number,
  sweep: AnySweep,
  bands: readonly Band[],
): SweepReport {
  const { frequencyHz } = sweep;
  const best = bestSwr(sweep);
  const dips = swrDips(sweep, SWR_LIMIT);
  return {
    file,
    shot,
    kind: sweep.kind,
    plane: sweep.plane,
    points: frequencyHz.length,
    fromHz: frequencyHz[0] as number,
    toHz: frequencyHz[frequencyHz.length - 1] as number,
    referenceOhm: sweep.referenceOhm,
    minSwr: best.swr,
    minSwrHz: best.frequencyHz,
    resonances: sweep.kind === 'impedance' ? findResonances(sweep) : [],
    bands: bands.map((band) => reportBand(sweep, band, dips)).filter((report) => report !== null),
    notes: [...(sweep.kind === 'swr' ? [NO_RESONANCE] : []), ...gapNotes(frequencyHz)],
  };
}

/** A sweep may hold several bands; between them it tells nothing. */
function gapNotes(frequencyHz: Float64Array): string[] {
  const megahertz = (i: number): string => ((frequencyHz[i] as number) / 1e6).toFixed(3);
  const gaps = Array.from(frequencyHz.keys()).filter((i) => isGap(frequencyHz, i));
  return gaps.map((i) => `nothing was measured between ${megahertz(i)} and ${megahertz(i + 1)} MHz`);
}

function reportBand(sweep: AnySweep, band: Band, dips: readonly SwrDip[]): BandReport | null {
  const summary = summariseBand(sweep, band);
  if (summary === null) return null;
  const { bestSwrHz } = summary;
  const dip = bestSwrHz === null ? null : dipAround(dips, bestSwrHz);
  return {
    band: summary.band,
    fromHz: summary.fromHz,
    toHz: summary.toHz,
    wholeBand: summary.wholeBand,
    worstSwr: summary.worstSwr,
    bestSwr: summary.bestSwr,
    bestSwrHz,
    worstReturnLossDb: summary.worstReturnLossDb,
    swr2BandwidthHz: dip === null ? null : dip.toHz - dip.fromHz,
    swr2OpenEnded: dip !== null && (dip.openBelow || dip.openAbove),
  };
}
