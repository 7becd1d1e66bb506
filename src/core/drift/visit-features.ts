import type { MeasuredVisit } from '../record.ts';
import { reflectionColumns } from '../sweep/reflection.ts';
import { averageShots } from '../sweep/repeats.ts';
import { findResonances } from '../sweep/resonance.ts';
import type { Sweep } from '../sweep/sweep.ts';
import { bestSwr } from '../sweep/swr-summary.ts';

/** What is watched from visit to visit; null where a visit does not show it. */
export interface VisitFeatures {
  readonly resistanceAtResonanceOhm: number | null;
  readonly resonanceHz: number | null;
  readonly qualityFactor: number | null;
  readonly minSwr: number | null;
}

/** The name of a figure that is followed from visit to visit. */
export type Feature = keyof VisitFeatures;

/** Every feature, in the order in which they are shown. */
export const FEATURES: readonly Feature[] = [
  'resistanceAtResonanceOhm',
  'resonanceHz',
  'qualityFactor',
  'minSwr',
];

const NOTHING: VisitFeatures = {
  resistanceAtResonanceOhm: null,
  resonanceHz: null,
  qualityFactor: null,
  minSwr: null,
};

/**
 * Features of a visit at its series resonance, from the mean of its shots over the range that holds one; at a parallel
 * resonance where there is no other.
 *
 * @param nearHz - take the resonance nearest to this frequency, so that one band is followed through the years
 */
export function visitFeatures(visit: MeasuredVisit, nearHz: number | null = null): VisitFeatures {
  let best: { features: VisitFeatures; distance: number } | null = null;
  for (const shots of sameRange(visit.shots)) {
    const { mean } = averageShots(shots);
    for (const { kind, frequencyHz, resistanceOhm, qualityFactor } of findResonances(mean)) {
      const distance =
        (kind === 'series' ? 0 : 1e12) + (nearHz === null ? frequencyHz : Math.abs(frequencyHz - nearHz));
      if (best !== null && best.distance <= distance) continue;
      const features = {
        resistanceAtResonanceOhm: resistanceOhm,
        resonanceHz: frequencyHz,
        qualityFactor,
        minSwr: leastSwr(mean),
      };
      best = { features, distance };
    }
  }
  if (best !== null) return best.features;
  const first = visit.shots[0];
  return first === undefined ? NOTHING : { ...NOTHING, minSwr: leastSwr(first) };
}

/** Best SWR, looked for between the neighbours of the best point alone: a year of hourly visits is many points. */
function leastSwr(sweep: Sweep): number | null {
  const { re, im } = reflectionColumns(sweep);
  let best = 0;
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < re.length; i++) {
    const square = (re[i] as number) ** 2 + (im[i] as number) ** 2;
    if (square < least) [least, best] = [square, i];
  }
  const at = (i: number): number => sweep.frequencyHz[Math.min(re.length - 1, Math.max(0, i))] as number;
  return bestSwr(sweep, sweep.referenceOhm, at(best - 1), at(best + 1)).swr;
}

function sameRange(shots: readonly Sweep[]): Sweep[][] {
  const groups = new Map<string, Sweep[]>();
  for (const shot of shots) {
    const key = `${shot.frequencyHz[0]} ${shot.frequencyHz.at(-1)}`;
    groups.set(key, [...(groups.get(key) ?? []), shot]);
  }
  return [...groups.values()];
}

/** Mean of each feature over the visits that show it. */
export function meanFeatures(visits: readonly VisitFeatures[]): VisitFeatures {
  const mean = (feature: Feature): number | null => {
    const values = visits.map((visit) => visit[feature]).filter((value) => value !== null);
    return values.length === 0 ? null : values.reduce((sum, value) => sum + value, 0) / values.length;
  };
  return {
    resistanceAtResonanceOhm: mean('resistanceAtResonanceOhm'),
    resonanceHz: mean('resonanceHz'),
    qualityFactor: mean('qualityFactor'),
    minSwr: mean('minSwr'),
  };
}
