import { longRunFactor } from './autocorrelation.ts';
import { type ChangePoint, findChangePoint } from './change-point.ts';
import { type CoarseCurve, curveDistance, meanCurve } from './coarse-curve.ts';
import { type ConditionModel, type Conditions, fitConditions } from './conditions.ts';
import { CUSUM_LIMIT, CUSUM_SLACK, cusumChart } from './cusum.ts';
import { ewmaChart } from './ewma.ts';
import { median, type Trend, theilSen } from './theil-sen.ts';
import { FEATURES, type Feature, type VisitFeatures } from './visit-features.ts';

/** One visit as the charts see it. */
export interface WatchedVisit {
  readonly visit: number;
  /** ISO 8601 with zone. */
  readonly time: string;
  /** The user's word on whether it may serve as baseline; null when never said. */
  readonly baseline: boolean | null;
  readonly features: VisitFeatures;
  readonly curve: CoarseCurve | null;
  readonly conditions: Conditions;
}

/** What is charted: the features, and how far the curve lies from that of the healthy visits (rms of Γ). */
export type Charted = Feature | 'curve';

export const CHARTED: readonly Charted[] = [...FEATURES, 'curve'];

/** One feature over time with its charts; columns of equal length, one entry per visit that shows it. */
export interface FeatureChart {
  readonly feature: Charted;
  readonly visits: readonly number[];
  readonly values: Float64Array;
  /** What the healthy visits lead one to expect under each visit's conditions. */
  readonly expected: Float64Array;
  /** Standard deviation of a healthy visit around the expectation; null for less than three healthy visits. */
  readonly standardDeviation: number | null;
  /** EWMA of value − expected, and its limits; null as above. */
  readonly ewma: { readonly average: Float64Array; readonly limit: Float64Array } | null;
  /** Visits at which a chart signals. */
  readonly ewmaSignals: readonly number[];
  readonly cusumSignals: readonly number[];
  readonly change: ChangePoint | null;
  /** Per year; null for less than three visits. */
  readonly trend: Trend | null;
}

/** What the charts make of the visits of one field state. */
export interface Watch {
  readonly charts: readonly FeatureChart[];
  /** The visits that stand for the healthy antenna, and those to be compared with them. */
  readonly healthy: readonly number[];
  readonly changed: readonly number[];
  /** The visit at which a lasting change seems to have begun; null when none shows. */
  readonly changeAt: number | null;
  /** Whether any chart sees more than this site does by itself in the newest visit. */
  readonly beyond: boolean;
}

/** Evidence (difference of BIC) above which a step counts; 6 is usually called strong. */
const STRONG = 6;
/** How many of the first visits tell the curve to measure from. */
const EARLY = 12;
const YEAR_MS = 365.25 * 86_400_000;

/**
 * Is anything different? Each feature less what conditions explain is put on an EWMA and a CUSUM chart (with a head
 * start) and searched for a step; the step with most evidence parts the healthy visits from the changed ones. Without one, the newest visit is held against all before it. Visits marked `yes` as baseline, where there are
 * any, are the only healthy ones; those marked `no` never are.
 *
 * Times may be irregular: a gap lets the memory of the charts fade. Autocorrelation widens every limit.
 *
 * @param visits - of the current field state, rising in time
 */
export function watchVisits(visits: readonly WatchedVisit[]): Watch {
  const marked = visits.filter((visit) => visit.baseline === true);
  // Until it is known which visits are healthy, the first ones tell the curve to measure from.
  const early = meanCurve((marked.length > 0 ? marked : visits.slice(0, EARLY)).map((visit) => visit.curve));
  const series = CHARTED.map((feature) => seriesOf(visits, feature, early));
  const first = strongestStep(visits, series, 0, STRONG);
  // A repair or a second fault after it: hold against the newest level, when that step is no mere ripple.
  const second =
    first === null ? null : strongestStep(visits, series, first.at, Math.max(STRONG, first.evidence / 4));
  const changedFrom = second?.at ?? first?.at ?? visits.length - 1;
  // Numbers need not rise in time: old sweeps may be imported late.
  const healthy = visits
    .slice(0, Math.max(0, first?.at ?? visits.length - 1))
    .filter(({ baseline }) => (marked.length > 0 ? baseline === true : baseline !== false));
  const isHealthy = new Set(healthy.map(({ visit }) => visit));
  const curve = meanCurve(healthy.map((visit) => visit.curve));
  const charts = CHARTED.map((feature) => chartOf(feature, seriesOf(visits, feature, curve), isHealthy));
  const newest = visits.at(-1)?.visit;
  return {
    charts,
    healthy: [...isHealthy],
    changed: visits.slice(Math.max(0, changedFrom)).map(({ visit }) => visit),
    changeAt: first === null ? null : (visits[changedFrom]?.visit ?? null),
    beyond: charts.some(
      ({ ewmaSignals, cusumSignals }) => ewmaSignals.at(-1) === newest || cusumSignals.at(-1) === newest,
    ),
  };
}

interface Series {
  readonly visits: readonly WatchedVisit[];
  readonly values: Float64Array;
}

function seriesOf(visits: readonly WatchedVisit[], feature: Charted, healthy: CoarseCurve | null): Series {
  const charted = ({ features, curve }: WatchedVisit): number | null =>
    feature !== 'curve'
      ? features[feature]
      : curve === null || healthy === null
        ? null
        : curveDistance(curve, healthy);
  const shown = visits.filter((visit) => charted(visit) !== null);
  return { visits: shown, values: Float64Array.from(shown, (visit) => charted(visit) as number) };
}

interface Step {
  /** Index among all visits of the first one of the new level. */
  readonly at: number;
  readonly evidence: number;
}

/** The step with most evidence in any of the series, from a visit on; null when none is strong and as large as a visit's scatter. */
function strongestStep(
  visits: readonly WatchedVisit[],
  series: readonly Series[],
  from: number,
  least: number,
): Step | null {
  let best: Step | null = null;
  const since = new Set(visits.slice(from));
  for (const { visits: shown, values } of series) {
    const start = shown.findIndex((visit) => since.has(visit));
    if (start < 0) continue;
    const own = shown.slice(start);
    const late = values.subarray(start);
    const model = fitConditions(
      own.map((visit) => visit.conditions),
      late,
    );
    const residuals =
      model === null ? late : late.map((x, i) => x - expectedBy(model, own[i] as WatchedVisit));
    const step = findChangePoint(residuals);
    if (step === null || step.evidence < (best?.evidence ?? least)) continue;
    const scatter = Math.sqrt(step.rssWith / residuals.length);
    if (Math.abs(step.levelAfter - step.levelBefore) < scatter) continue;
    best = { at: visits.indexOf(own[step.index] as WatchedVisit), evidence: step.evidence };
  }
  return best;
}

function expectedBy(model: ConditionModel, visit: WatchedVisit): number {
  return model.expected(visit.conditions);
}

function chartOf(feature: Charted, { visits, values }: Series, isHealthy: ReadonlySet<number>): FeatureChart {
  const healthyAt = visits.flatMap(({ visit }, i) => (isHealthy.has(visit) ? [i] : []));
  const healthy = Float64Array.from(healthyAt, (i) => values[i] as number);
  const model = fitConditions(
    healthyAt.map((i) => (visits[i] as WatchedVisit).conditions),
    healthy,
  );
  const middle = healthy.length === 0 ? Number.NaN : mean(healthy);
  const expected = values.map((_, i) =>
    model === null ? middle : expectedBy(model, visits[i] as WatchedVisit),
  );
  const residuals = values.map((x, i) => x - (expected[i] as number));
  const numbers = visits.map(({ visit }) => visit);
  const base = {
    feature,
    visits: numbers,
    values,
    expected,
    change: findChangePoint(residuals),
    trend: trendPerYear(visits, residuals),
  };
  if (healthy.length < 3) {
    return { ...base, standardDeviation: null, ewma: null, ewmaSignals: [], cusumSignals: [] };
  }
  const spread = Float64Array.from(healthyAt, (i) => residuals[i] as number);
  const freedom = Math.max(1, healthy.length - 1 - (model?.parameters ?? 0));
  const standardDeviation = Math.sqrt(spread.reduce((sum, x) => sum + x * x, 0) / freedom);
  const longRun = standardDeviation * Math.sqrt(longRunFactor(spread));
  const ewma = ewmaChart(residuals, { target: 0, standardDeviation: longRun, steps: stepsOf(visits) });
  const cusum = cusumChart(residuals, {
    target: 0,
    slack: CUSUM_SLACK * longRun,
    limit: CUSUM_LIMIT * longRun,
    headStart: (CUSUM_LIMIT / 2) * longRun,
  });
  const named = (indices: readonly number[]): number[] => indices.map((i) => numbers[i] as number);
  return {
    ...base,
    standardDeviation,
    ewma: { average: ewma.average, limit: ewma.upperLimit },
    ewmaSignals: named(ewma.signals),
    cusumSignals: named(cusum.signals),
  };
}

/** Time since the visit before in units of the usual interval. */
function stepsOf(visits: readonly WatchedVisit[]): Float64Array {
  const times = Float64Array.from(visits, (visit) => Date.parse(visit.time));
  const gaps = times.map((t, i) => (i === 0 ? 0 : t - (times[i - 1] as number)));
  const usual = times.length > 1 ? Math.max(1, median(gaps.subarray(1))) : 1;
  return gaps.map((gap) => gap / usual);
}

function trendPerYear(visits: readonly WatchedVisit[], residuals: Float64Array): Trend | null {
  if (visits.length < 3 || !Number.isFinite(residuals[0])) return null;
  return theilSen(
    Float64Array.from(visits, (visit) => Date.parse(visit.time) / YEAR_MS),
    residuals,
  );
}

function mean(values: Float64Array): number {
  return values.reduce((sum, x) => sum + x, 0) / values.length;
}
