import type { BinnedShot } from './bins.ts';
import { type Columns, emptyColumns } from './columns.ts';
import type { Observation, VisitBins } from './observation.ts';
import type { Plane } from './plane.ts';
import { type StretchOfVisits, type VisitDeviations, visitDeviations } from './visit-deviations.ts';

/** Where one stretch lies among all bins, and how many visits and shots stand behind its means. */
export interface StretchSpan {
  readonly from: number;
  readonly to: number;
  readonly fromHz: number;
  readonly toHz: number;
  readonly visitsBefore: number;
  readonly visitsAfter: number;
  /** Variance of Re Γ or Im Γ of a bin of a single shot that noise alone makes. */
  readonly shotNoiseVariance: number;
  /** Each shot's bins less its visit's mean, before and after; the visits with two or more shots. */
  readonly shotsBefore: readonly VisitBins[];
  readonly shotsAfter: readonly VisitBins[];
  /** Count of all shots after. */
  readonly shotsOfAfter: number;
}

/** The mean curve of the healthy visits, the change since, and the scatter that the healthy visits show. */
export interface Baseline {
  /** All bins of all stretches one after the other, length m. */
  readonly frequencyHz: Float64Array;
  /** Place within its own stretch, −1 to 1. */
  readonly position: Float64Array;
  readonly spans: readonly StretchSpan[];
  readonly plane: Plane;
  readonly before: Columns;
  readonly after: Columns;
  /** Variance of Re Γ or Im Γ of each bin of one visit's mean that noise alone makes. */
  readonly noiseVariance: Float64Array;
  readonly deviationsBefore: VisitDeviations;
  readonly deviationsAfter: VisitDeviations;
}

/**
 * Noise that is always reckoned with, in |Γ| of one bin of one visit: rounding in files and what third differences
 * cannot see. Our own choice.
 */
const NOISE_FLOOR = 1e-4;

/** Means over shots, then over visits, so that a visit with many shots counts no more than another. */
export function baselineOf(observation: Observation): Baseline {
  const { stretches, plane } = observation;
  const length = stretches.reduce((sum, stretch) => sum + stretch.centreHz.length, 0);
  const frequencyHz = new Float64Array(length);
  const position = new Float64Array(length);
  const before = emptyColumns(length);
  const after = emptyColumns(length);
  const noiseVariance = new Float64Array(length);
  const spans: StretchSpan[] = [];
  const [healthy, since]: [StretchOfVisits[], StretchOfVisits[]] = [[], []];
  let from = 0;
  for (const stretch of stretches) {
    const bins = stretch.centreHz.length;
    const visitsBefore = stretch.before.map(meanOfShots);
    const meanBefore = meanOf(visitsBefore);
    const visitsAfter = stretch.after.map(meanOfShots);
    const meanAfter = meanOf(visitsAfter);
    const shotNoise = noiseOf(stretch.before, stretch.after) * (bins / stretch.gridHz.length);
    frequencyHz.set(stretch.centreHz, from);
    put(before, meanBefore, from);
    put(after, meanAfter, from);
    const [low, high] = [stretch.centreHz[0] as number, stretch.centreHz[bins - 1] as number];
    for (let i = 0; i < bins; i++) {
      const f = stretch.centreHz[i] as number;
      position[from + i] = high > low ? (2 * f - low - high) / (high - low) : 0;
    }
    noiseVariance.fill(shotNoise / shotsPerVisit(stretch.before) + NOISE_FLOOR ** 2, from, from + bins);
    healthy.push({ from, visits: visitsBefore, mean: meanBefore });
    since.push({ from, visits: visitsAfter, mean: meanAfter });
    spans.push({
      from,
      to: from + bins,
      fromHz: stretch.gridHz[0] as number,
      toHz: stretch.gridHz[stretch.gridHz.length - 1] as number,
      visitsBefore: stretch.before.length,
      visitsAfter: stretch.after.length,
      shotNoiseVariance: shotNoise + NOISE_FLOOR ** 2,
      shotsBefore: stretch.before.filter((shots) => shots.length > 1),
      shotsAfter: stretch.after.filter((shots) => shots.length > 1),
      shotsOfAfter: stretch.after.flat().length,
    });
    from += bins;
  }
  return {
    frequencyHz,
    position,
    spans,
    plane,
    before,
    after,
    noiseVariance,
    deviationsBefore: visitDeviations(healthy, true),
    deviationsAfter: visitDeviations(since, false),
  };
}

/** Mean of the shots of one visit. */
export function meanOfShots(shots: VisitBins): Columns {
  return meanOf(shots);
}

function meanOf(members: readonly Columns[]): Columns {
  const mean = emptyColumns((members[0] as Columns).re.length);
  for (const member of members) {
    for (let i = 0; i < mean.re.length; i++) {
      mean.re[i] = (mean.re[i] as number) + (member.re[i] as number) / members.length;
      mean.im[i] = (mean.im[i] as number) + (member.im[i] as number) / members.length;
    }
  }
  return mean;
}

function put(target: Columns, source: Columns, from: number): void {
  target.re.set(source.re, from);
  target.im.set(source.im, from);
}

/** Noise variance of one point; the quieter of before and after is the instrument's own. */
function noiseOf(before: readonly VisitBins[], after: readonly VisitBins[]): number {
  const typical = (visits: readonly VisitBins[]): number => {
    const all = visits.flat().map((shot: BinnedShot) => shot.noise ** 2);
    return all.reduce((sum, x) => sum + x, 0) / all.length;
  };
  return Math.min(typical(before), typical(after));
}

function shotsPerVisit(visits: readonly VisitBins[]): number {
  return visits.reduce((sum, visit) => sum + visit.length, 0) / visits.length;
}
