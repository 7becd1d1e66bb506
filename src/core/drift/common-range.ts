import type { MeasuredVisit } from '../record.ts';
import type { Band } from '../sweep/bands.ts';
import type { Sweep } from '../sweep/sweep.ts';
import { reachesInto } from '../visits-in-band.ts';
import { partOf } from './split-at-gaps.ts';

/** Ranges that share this much of what both together cover need no cutting. */
const ALIKE = 0.6;
const FEWEST_POINTS = 8;

/**
 * Cuts the sweeps of each band to the range that all of them cover, where some are much wider than others: a first sweep
 * that went to look for the resonance can then be held against the narrow ones that followed. Where all are alike, wide
 * sweeps keep their width, which tells more.
 */
export function onCommonRange(visits: readonly MeasuredVisit[], bands: readonly Band[]): MeasuredVisit[] {
  const all = visits.flatMap(({ shots }) => shots).map(rangeOf);
  const shared = bands.map((band) => sharedBy(all.filter((range) => covers(range, band))));
  if (shared.every((range) => range === null || range.alike >= ALIKE)) return [...visits];
  return visits.map((visit) => ({
    ...visit,
    shots: visit.shots.flatMap((shot) => cut(shot, bands, shared)),
  }));
}

interface Range {
  readonly fromHz: number;
  readonly toHz: number;
}

function cut(sweep: Sweep, bands: readonly Band[], shared: readonly (Range | null)[]): Sweep[] {
  const range = rangeOf(sweep);
  const parts = bands.flatMap((band, i) => {
    if (!reachesInto(range, band)) return [];
    const common = shared[i];
    return common == null || !covers(range, band) ? [sweep] : within(sweep, common);
  });
  return [...new Set(parts)];
}

function within(sweep: Sweep, { fromHz, toHz }: Range): Sweep[] {
  const from = sweep.frequencyHz.findIndex((f) => f >= fromHz);
  const to = sweep.frequencyHz.findLastIndex((f) => f <= toHz) + 1;
  return to - from < FEWEST_POINTS ? [] : [partOf(sweep, from, to)];
}

/** What all ranges share, and how large a part that is of what any of them covers; null for none. */
function sharedBy(ranges: readonly Range[]): (Range & { readonly alike: number }) | null {
  if (ranges.length === 0) return null;
  const fromHz = Math.max(...ranges.map((range) => range.fromHz));
  const toHz = Math.min(...ranges.map((range) => range.toHz));
  const widthHz =
    Math.max(...ranges.map((range) => range.toHz)) - Math.min(...ranges.map((range) => range.fromHz));
  return { fromHz, toHz, alike: (toHz - fromHz) / widthHz };
}

function covers(range: Range, band: Band): boolean {
  return range.fromHz <= band.fromHz && range.toHz >= band.toHz;
}

function rangeOf({ frequencyHz }: Sweep): Range {
  return { fromHz: frequencyHz[0] as number, toHz: frequencyHz[frequencyHz.length - 1] as number };
}
