import { isGap } from './gap.ts';
import type { Sweep } from './sweep.ts';

/** A place where the reactance crosses zero. */
export interface Resonance {
  readonly frequencyHz: number;
  readonly resistanceOhm: number;
  /** `series`: X rises through zero, as at the quarter wave; `parallel`: X falls through zero. */
  readonly kind: 'series' | 'parallel';
  /** Quality factor there, or null when the slopes cannot be had. */
  readonly qualityFactor: number | null;
}

/** How many points on each side of a crossing are used for its slopes. */
const SLOPE_POINTS = 3;

/**
 * Every X = 0 crossing of a sweep, rising in frequency, interpolated linearly between its two neighbours.
 * Points with X exactly 0 count once, at their middle; a touch without a change of sign is no crossing, nor is a
 * change of sign across a {@link isGap | gap}, where nothing was measured.
 *
 * @returns empty when the reactance never crosses zero
 */
export function findResonances(sweep: Sweep): Resonance[] {
  const { frequencyHz, reactanceOhm } = sweep;
  const found: Resonance[] = [];
  let before = -1;
  for (let i = 0; i < frequencyHz.length; i++) {
    const after = reactanceOhm[i] as number;
    if (after === 0) continue;
    const startsAtZero = before < 0 && i > 0;
    const rises = startsAtZero ? after > 0 : before >= 0 && (reactanceOhm[before] as number) < 0 && after > 0;
    const falls = startsAtZero ? after < 0 : before >= 0 && (reactanceOhm[before] as number) > 0 && after < 0;
    const swept = before < 0 || i - before > 1 || !isGap(frequencyHz, before);
    if ((rises || falls) && swept)
      found.push(crossingBetween(sweep, before, i, rises ? 'series' : 'parallel'));
    before = i;
  }
  const last = frequencyHz.length - 1;
  if (before >= 0 && before < last) {
    found.push(
      crossingBetween(sweep, before, last + 1, (reactanceOhm[before] as number) < 0 ? 'series' : 'parallel'),
    );
  }
  return found;
}

/** The crossing between two points of opposite reactance, or in the middle of the exact zeros between them. */
function crossingBetween(
  sweep: Sweep,
  before: number,
  after: number,
  kind: 'series' | 'parallel',
): Resonance {
  const { frequencyHz, resistanceOhm, reactanceOhm } = sweep;
  const zeros = after - before > 1;
  const left = zeros ? before + 1 : before;
  const right = zeros ? after - 1 : after;
  const x1 = reactanceOhm[left] as number;
  const t = zeros ? 0.5 : x1 / (x1 - (reactanceOhm[right] as number));
  const at = (column: Float64Array): number =>
    (column[left] as number) * (1 - t) + (column[right] as number) * t;
  const f = at(frequencyHz);
  const r = at(resistanceOhm);
  return { frequencyHz: f, resistanceOhm: r, kind, qualityFactor: qualityFactorAt(sweep, left, f, r, 0) };
}

/**
 * Quality factor from the slopes of R and X at a frequency:
 * Q ≈ ω/(2R) · √(R′² + (X′ + |X|/ω)²), derivatives with respect to ω.
 * It is accurate for Q ≳ 4; the slopes are straight-line least squares over the nearest points.
 *
 * Source: A. D. Yaghjian and S. R. Best, "Impedance, Bandwidth, and Q of Antennas",
 * IEEE Trans. Antennas Propag. 53(4), 2005, eq. (96).
 *
 * @param index - the point just below the frequency
 * @returns null for R ≤ 0 or f = 0
 */
export function qualityFactorAt(
  sweep: Sweep,
  index: number,
  frequencyHz: number,
  resistanceOhm: number,
  reactanceOhm: number,
): number | null {
  if (!(resistanceOhm > 0) || !(frequencyHz > 0)) return null;
  let from = index;
  while (from > Math.max(0, index - SLOPE_POINTS + 1) && !isGap(sweep.frequencyHz, from - 1)) from--;
  let to = index + 1;
  const farthest = Math.min(sweep.frequencyHz.length - 1, index + SLOPE_POINTS);
  while (to < farthest && !isGap(sweep.frequencyHz, to)) to++;
  const slopeR = slope(sweep.frequencyHz, sweep.resistanceOhm, from, to);
  const slopeX = slope(sweep.frequencyHz, sweep.reactanceOhm, from, to);
  // ω d/dω = f d/df, so the slopes per hertz serve as they are.
  return qualityFactor(frequencyHz, resistanceOhm, reactanceOhm, slopeR, slopeX);
}

/** The formula of {@link qualityFactorAt} with slopes given in ohm per hertz. */
export function qualityFactor(
  frequencyHz: number,
  resistanceOhm: number,
  reactanceOhm: number,
  slopeROhmPerHz: number,
  slopeXOhmPerHz: number,
): number {
  return (
    Math.hypot(frequencyHz * slopeROhmPerHz, frequencyHz * slopeXOhmPerHz + Math.abs(reactanceOhm)) /
    (2 * resistanceOhm)
  );
}

/**
 * Fractional bandwidth for an SWR limit of an antenna matched at its resonance: FBW = 2√β/Q, √β = (s − 1)/(2√s).
 * Source: Yaghjian and Best (2005), eq. (87).
 */
export function fractionalBandwidth(qualityFactor: number, swrLimit: number): number {
  return (swrLimit - 1) / Math.sqrt(swrLimit) / qualityFactor;
}

function slope(x: Float64Array, y: Float64Array, from: number, to: number): number {
  const n = to - from + 1;
  let meanX = 0;
  let meanY = 0;
  for (let i = from; i <= to; i++) {
    meanX += (x[i] as number) / n;
    meanY += (y[i] as number) / n;
  }
  let above = 0;
  let below = 0;
  for (let i = from; i <= to; i++) {
    const dx = (x[i] as number) - meanX;
    above += dx * ((y[i] as number) - meanY);
    below += dx * dx;
  }
  return above / below;
}
