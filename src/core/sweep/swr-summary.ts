import type { Band } from './bands.ts';
import { isGap } from './gap.ts';
import { reflectionOfSwr, reflectionSizes, returnLossDb, swrOfReflection } from './reflection.ts';
import { leastReflection, reflectionCrossings, type Segment, sizeAlong } from './segment.ts';
import type { AnySweep } from './sweep.ts';

/** A stretch in which the SWR stays at or under a limit. */
export interface SwrDip {
  readonly fromHz: number;
  readonly toHz: number;
  /** True where the sweep began, ended or has a gap before the SWR passed the limit: the dip is at least this wide. */
  readonly openBelow: boolean;
  readonly openAbove: boolean;
}

/** What a sweep says about the part of a band that it covers. */
export interface BandSummary {
  readonly band: string;
  readonly fromHz: number;
  readonly toHz: number;
  /** False where the sweep ends or has a gap inside the band; the range above is then what the covered parts span. */
  readonly wholeBand: boolean;
  /** Null when a point of the band has no SWR (|Γ| ≥ 1). */
  readonly worstSwr: number | null;
  readonly bestSwr: number | null;
  readonly bestSwrHz: number | null;
  readonly worstReturnLossDb: number | null;
  /** Mean over frequency of the return loss, dB; null when a point has none. */
  readonly meanReturnLossDb: number | null;
  /** Points in the band at which |Γ| ≥ 1. */
  readonly pointsWithoutSwr: number;
}

/** Sums of many steps miss their whole by about this part. */
const ROUNDING = 1e-9;

/** The point of least reflection of a sweep, interpolated; nulls when no point has an SWR. */
export function bestSwr(
  sweep: AnySweep,
  referenceOhm: number = sweep.referenceOhm,
  fromHz: number = Number.NEGATIVE_INFINITY,
  toHz: number = Number.POSITIVE_INFINITY,
): { swr: number | null; frequencyHz: number | null } {
  const walk = walkable(sweep, referenceOhm);
  let least = Number.POSITIVE_INFINITY;
  let where = Number.NaN;
  const offer = (frequencyHz: number, size: number): void => {
    if (size < least) {
      least = size;
      where = frequencyHz;
    }
  };
  for (let i = 0; i + 1 < walk.frequencyHz.length; i++) {
    const clip = clipped(walk, i, fromHz, toHz);
    if (clip === null) continue;
    for (const t of [clip[0], Math.min(clip[1], Math.max(clip[0], walk.leastAt(i))), clip[1]]) {
      offer(walk.frequencyAt(i, t), walk.sizeAt(i, t));
    }
  }
  const swr = swrOfReflection(least);
  return swr === null ? { swr: null, frequencyHz: null } : { swr, frequencyHz: where };
}

/**
 * Every stretch in which the SWR is at or under a limit, rising; open-ended where the sweep ends first.
 * @param swrLimit - above 1
 */
export function swrDips(
  sweep: AnySweep,
  swrLimit: number,
  referenceOhm: number = sweep.referenceOhm,
): SwrDip[] {
  const walk = walkable(sweep, referenceOhm);
  const limit = reflectionOfSwr(swrLimit);
  const n = walk.frequencyHz.length;
  const dips: SwrDip[] = [];
  let start: number | null = (walk.sizeAt(0, 0) <= limit ? walk.frequencyHz[0] : null) ?? null;
  let openBelow = start !== null;
  for (let i = 0; i + 1 < n; i++) {
    // Where the SWR is not known the dip is open: it may end there or go on.
    const gap = isGap(walk.frequencyHz, i);
    if (gap || Number.isNaN(walk.sizeAt(i, 1))) {
      const last = walk.frequencyHz[i] as number;
      if (start !== null && start < last)
        dips.push({ fromHz: start, toHz: last, openBelow, openAbove: true });
      start = null;
      if (!gap) continue;
    }
    if (gap || Number.isNaN(walk.sizeAt(i, 0))) {
      start = walk.sizeAt(i, 1) <= limit ? (walk.frequencyHz[i + 1] as number) : null;
      openBelow = start !== null;
      continue;
    }
    for (const t of walk.crossingsAt(i, limit)) {
      const f = walk.frequencyAt(i, t);
      const under = walk.sizeAt(i, Math.min(1, t + 1e-6)) < limit;
      if (start === null && under) {
        start = f;
        openBelow = false;
      } else if (start !== null && !under && f > start) {
        dips.push({ fromHz: start, toHz: f, openBelow, openAbove: false });
        start = null;
      }
    }
  }
  const end = walk.frequencyHz[n - 1] as number;
  if (start !== null && start < end) dips.push({ fromHz: start, toHz: end, openBelow, openAbove: true });
  return dips;
}

/** The dip that holds a frequency, or null. */
export function dipAround(dips: readonly SwrDip[], frequencyHz: number): SwrDip | null {
  return dips.find((dip) => dip.fromHz <= frequencyHz && frequencyHz <= dip.toHz) ?? null;
}

/** Worst, best and mean over the part of a band that a sweep covers; null when it covers none of it. */
export function summariseBand(
  sweep: AnySweep,
  band: Band,
  referenceOhm: number = sweep.referenceOhm,
): BandSummary | null {
  const walk = walkable(sweep, referenceOhm);
  const n = walk.frequencyHz.length;
  let [fromHz, toHz, coveredHz] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, 0];
  let worst = 0;
  let pointsWithoutSwr = 0;
  let lossArea = 0;
  for (let i = 0; i + 1 < n; i++) {
    const clip = clipped(walk, i, band.fromHz, band.toHz);
    if (clip === null) continue;
    const [size1, size2] = [walk.sizeAt(i, clip[0]), walk.sizeAt(i, clip[1])];
    // |Γ| along an arc is largest at one of its ends, unless the arc passes −R0; then there is no SWR anyway.
    worst = worseOf(worst, worseOf(size1, size2));
    if (!(size2 < 1)) pointsWithoutSwr++;
    const startHz = Math.max(band.fromHz, walk.frequencyHz[i] as number);
    const endHz = Math.min(band.toHz, walk.frequencyHz[i + 1] as number);
    [fromHz, toHz] = [Math.min(fromHz, startHz), Math.max(toHz, endHz)];
    const widthHz = endHz - startHz;
    coveredHz += widthHz;
    lossArea += (((returnLossDb(size1) ?? Number.NaN) + (returnLossDb(size2) ?? Number.NaN)) / 2) * widthHz;
  }
  if (!(fromHz < toHz)) return null;
  if (walk.frequencyHz[0] === fromHz && !(walk.sizeAt(0, 0) < 1)) pointsWithoutSwr++;
  const best = bestSwr(sweep, referenceOhm, fromHz, toHz);
  const meanReturnLossDb = lossArea / coveredHz;
  return {
    band: band.band,
    fromHz,
    toHz,
    wholeBand: coveredHz > (1 - ROUNDING) * (band.toHz - band.fromHz),
    worstSwr: swrOfReflection(worst),
    bestSwr: best.swr,
    bestSwrHz: best.frequencyHz,
    worstReturnLossDb: worst < 1 ? returnLossDb(worst) : null,
    meanReturnLossDb: Number.isFinite(meanReturnLossDb) ? meanReturnLossDb : null,
    pointsWithoutSwr,
  };
}

/** NaN (nothing known) is worse than any number. */
function worseOf(a: number, b: number): number {
  return Number.isNaN(a) || Number.isNaN(b) ? Number.NaN : Math.max(a, b);
}

/** One way of walking along impedance and scalar sweeps alike, segment by segment. */
interface Walk {
  readonly frequencyHz: Float64Array;
  frequencyAt(index: number, t: number): number;
  sizeAt(index: number, t: number): number;
  leastAt(index: number): number;
  crossingsAt(index: number, limit: number): number[];
}

function walkable(sweep: AnySweep, referenceOhm: number): Walk {
  const { frequencyHz } = sweep;
  const frequencyAt = (i: number, t: number): number => {
    const f1 = frequencyHz[i] as number;
    return t === 0 ? f1 : f1 + t * ((frequencyHz[i + 1] as number) - f1);
  };
  if (sweep.kind === 'impedance') {
    const point = (i: number): [number, number] => [
      sweep.resistanceOhm[i] as number,
      sweep.reactanceOhm[i] as number,
    ];
    const segment = (i: number): Segment => ({ startOhm: point(i), endOhm: point(i + 1) });
    return {
      frequencyHz,
      frequencyAt,
      sizeAt: (i, t) => sizeAlong(segment(i), t, referenceOhm),
      leastAt: (i) => leastReflection(segment(i), referenceOhm),
      crossingsAt: (i, limit) => reflectionCrossings(segment(i), limit, referenceOhm),
    };
  }
  const sizes = reflectionSizes(sweep);
  const sizeAt = (i: number, t: number): number => {
    const [a, b] = [sizes[i] as number, sizes[i + 1] as number];
    // The ends stand for themselves: beside a gap, a + 1·(b − a) is NaN though b is known.
    return t === 0 ? a : t === 1 ? b : a + t * (b - a);
  };
  return {
    frequencyHz,
    frequencyAt,
    sizeAt,
    leastAt: (i) => (sizeAt(i, 1) < sizeAt(i, 0) ? 1 : 0),
    crossingsAt: (i, limit) => {
      const [a, b] = [sizeAt(i, 0), sizeAt(i, 1)];
      return a === b || (a < limit && b < limit) || (a > limit && b > limit) ? [] : [(limit - a) / (b - a)];
    },
  };
}

/** The fractions of a segment that lie within a range, or null; a gap between points is no segment. */
function clipped(walk: Walk, index: number, fromHz: number, toHz: number): [number, number] | null {
  const f1 = walk.frequencyHz[index] as number;
  const f2 = walk.frequencyHz[index + 1] as number;
  if (f2 <= fromHz || f1 >= toHz || isGap(walk.frequencyHz, index)) return null;
  return [Math.max(0, (fromHz - f1) / (f2 - f1)), Math.min(1, (toHz - f1) / (f2 - f1))];
}
