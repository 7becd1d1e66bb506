import { longRunFactor } from './autocorrelation.ts';
import type { BandFigures } from './band-figures.ts';
import { type CoarseCurve, curveDistance } from './coarse-curve.ts';
import { type Conditions, fitConditions } from './conditions.ts';
import { CUSUM_LIMIT, CUSUM_SLACK, cusumChart } from './cusum.ts';
import { ewmaChart } from './ewma.ts';
import { median, type Trend, theilSen } from './theil-sen.ts';
import { FEATURES, type Feature } from './visit-features.ts';

/** One round as the charts see it. */
export interface WatchedRound {
  /** Since 1970. */
  readonly timeMs: number;
  /** The user's word on whether it may serve as baseline; null when never said. */
  readonly baseline: boolean | null;
  /** What it shows of each band that is followed, and the visit that does; null where none holds it. */
  readonly ofBand: readonly (WatchedFigures | null)[];
  readonly conditions: Conditions;
}

/** The figures of one band at one visit. */
export interface WatchedFigures extends BandFigures {
  readonly visit: number;
}

/** What is charted: the features, and how far the curve lies from that of the healthy visits (rms of Γ). */
export type Charted = Feature | 'curve';

/** All that is charted, in the order of the charts. */
export const CHARTED: readonly Charted[] = [...FEATURES, 'curve'];

/** One feature of one band over time; columns of equal length, one entry per round that shows it. */
export interface Series {
  /** Index of the band. */
  readonly band: number;
  readonly feature: Charted;
  /** Indices of the rounds. */
  readonly places: readonly number[];
  readonly values: Float64Array;
}

/** A series with its charts. */
export interface FeatureChart extends Series {
  /** The visits behind the entries. */
  readonly visits: readonly number[];
  /** What the healthy visits lead one to expect under each visit's conditions. */
  readonly expected: Float64Array;
  /** Standard deviation of a healthy visit around the expectation; null for less than three healthy visits. */
  readonly standardDeviation: number | null;
  /** EWMA of value − expected, and its limits; null as above. */
  readonly ewma: { readonly average: Float64Array; readonly limit: Float64Array } | null;
  /** Visits at which a chart signals. */
  readonly ewmaSignals: readonly number[];
  readonly cusumSignals: readonly number[];
  /** Per year; null for less than three visits, or less than a month. */
  readonly trend: Trend | null;
}

const YEAR_MS = 365.25 * 86_400_000;
/** From less than this a slope per year would be scatter multiplied. */
const SHORTEST_TREND_MS = 30 * 86_400_000;
/** Healthy visits that show how far visits differ by themselves. */
const FEWEST_HEALTHY = 3;

/** @param healthy - the curve to measure from; null where there is none */
export function seriesOf(
  rounds: readonly WatchedRound[],
  band: number,
  feature: Charted,
  healthy: CoarseCurve | null,
): Series {
  const places: number[] = [];
  const values: number[] = [];
  rounds.forEach(({ ofBand }, place) => {
    const shown = ofBand[band] ?? null;
    const value = shown === null ? null : figureOf(shown, feature, healthy);
    if (value === null) return;
    places.push(place);
    values.push(value);
  });
  return { band, feature, places, values: Float64Array.from(values) };
}

/** A series less some rounds, by their indices. */
export function seriesWithout(series: Series, left: ReadonlySet<number>): Series {
  if (left.size === 0) return series;
  const isKept = (i: number): boolean => !left.has(series.places[i] as number);
  return {
    ...series,
    places: series.places.filter((_, i) => isKept(i)),
    values: series.values.filter((_, i) => isKept(i)),
  };
}

function figureOf(
  { features, curve }: BandFigures,
  feature: Charted,
  healthy: CoarseCurve | null,
): number | null {
  if (feature !== 'curve') return features[feature];
  return curve === null || healthy === null ? null : curveDistance(curve, healthy);
}

/**
 * Puts a series, less what conditions explain, on an EWMA and a CUSUM chart with a head start. Times may be irregular: a
 * gap lets the memory of the EWMA fade. Autocorrelation widens every limit.
 *
 * @param isHealthy - by the index of the round
 * @param isApart - likewise: shown, but unknown to the charts and to the trend, whose averages are NaN there
 */
export function chartOf(
  rounds: readonly WatchedRound[],
  series: Series,
  isHealthy: ReadonlySet<number>,
  isApart: ReadonlySet<number>,
): FeatureChart {
  const { band, places, values } = series;
  const shown = places.map((place) => rounds[place] as WatchedRound);
  const healthyAt = places.flatMap((place, i) => (isHealthy.has(place) ? [i] : []));
  const healthy = Float64Array.from(healthyAt, (i) => values[i] as number);
  const model = fitConditions(
    healthyAt.map((i) => (shown[i] as WatchedRound).conditions),
    healthy,
  );
  const expected =
    model === null
      ? new Float64Array(values.length).fill(mean(healthy))
      : Float64Array.from(shown, ({ conditions }) => model.expected(conditions));
  const residualAt = (i: number): number => (values[i] as number) - (expected[i] as number);
  const keptAt = places.flatMap((place, i) => (isApart.has(place) ? [] : [i]));
  const residuals = Float64Array.from(keptAt, residualAt);
  const timeMs = Float64Array.from(keptAt, (i) => (shown[i] as WatchedRound).timeMs);
  const visits = shown.map(({ ofBand }) => (ofBand[band] as WatchedFigures).visit);
  const base = { ...series, visits, expected, trend: trendPerYear(timeMs, residuals) };
  if (healthy.length < FEWEST_HEALTHY) {
    return { ...base, standardDeviation: null, ewma: null, ewmaSignals: [], cusumSignals: [] };
  }
  const spread = Float64Array.from(healthyAt, residualAt);
  const freedom = Math.max(1, healthy.length - 1 - (model?.parameters ?? 0));
  const standardDeviation = Math.sqrt(spread.reduce((sum, x) => sum + x * x, 0) / freedom);
  const longRun = standardDeviation * Math.sqrt(longRunFactor(spread));
  const ewma = ewmaChart(residuals, { target: 0, standardDeviation: longRun, steps: stepsOf(timeMs) });
  const cusum = cusumChart(residuals, {
    target: 0,
    slack: CUSUM_SLACK * longRun,
    limit: CUSUM_LIMIT * longRun,
    headStart: (CUSUM_LIMIT / 2) * longRun,
  });
  const visitsAt = (indices: readonly number[]): number[] =>
    indices.map((i) => visits[keptAt[i] as number] as number);
  const spreadOut = (kept: Float64Array): Float64Array => {
    const all = new Float64Array(values.length).fill(Number.NaN);
    kept.forEach((x, i) => {
      all[keptAt[i] as number] = x;
    });
    return all;
  };
  return {
    ...base,
    standardDeviation,
    ewma: { average: spreadOut(ewma.average), limit: spreadOut(ewma.upperLimit) },
    ewmaSignals: visitsAt(ewma.signals),
    cusumSignals: visitsAt(cusum.signals),
  };
}

/** Time since the visit before in units of the usual interval. */
function stepsOf(timeMs: Float64Array): Float64Array {
  const gaps = timeMs.map((t, i) => (i === 0 ? 0 : t - (timeMs[i - 1] as number)));
  const usual = gaps.length > 1 ? Math.max(1, median(gaps.subarray(1))) : 1;
  return gaps.map((gap) => gap / usual);
}

function trendPerYear(timeMs: Float64Array, residuals: Float64Array): Trend | null {
  const spanMs = (timeMs.at(-1) ?? 0) - (timeMs[0] ?? 0);
  if (timeMs.length < 3 || spanMs < SHORTEST_TREND_MS || !Number.isFinite(residuals[0])) return null;
  return theilSen(
    timeMs.map((t) => t / YEAR_MS),
    residuals,
  );
}

function mean(values: Float64Array): number {
  return values.reduce((sum, x) => sum + x, 0) / values.length;
}
