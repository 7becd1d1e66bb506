import { findChangePoint, SHORTEST_SEGMENT } from './change-point.ts';
import { meanCurve } from './coarse-curve.ts';
import {
  CHARTED,
  chartOf,
  type FeatureChart,
  type Series,
  seriesOf,
  seriesWithout,
  type WatchedRound,
} from './feature-chart.ts';
import { newestPairIsBeyond } from './newest-pair.ts';
import { type RoundsApart, roundsApart } from './rounds-apart.ts';
import { withoutConditions } from './without-conditions.ts';

/** What the charts make of the rounds over one field; rounds by their indices. */
export interface Watch {
  /** Band by band, each feature. */
  readonly charts: readonly FeatureChart[];
  /** Those that stand for the healthy antenna, and those to be compared with them. */
  readonly healthy: readonly number[];
  readonly changed: readonly number[];
  /** Why these are the changed ones: see {@link JudgedBy}. */
  readonly judgedBy: JudgedBy;
  /** Faults that came and went: neither healthy nor changed, and unknown to the charts. */
  readonly apart: readonly RoundsApart[];
  /** Where a lasting change seems to have begun; null when none shows. */
  readonly changeAt: number | null;
  /**
   * Whether any chart sees more than this site does by itself in the newest round; null when too few healthy rounds
   * show how much that is.
   */
  readonly beyond: boolean | null;
}

/**
 * The rounds since a step, or since a repair after it; or the newest alone, because the step is too young to tell how the
 * fault goes on, or because there is none.
 */
export type JudgedBy = 'step' | 'repair' | 'young-step' | 'newest';

/** Evidence (difference of BIC) above which a step counts; 6 is usually called strong. */
const STRONG = 6;
/** How many of the first rounds tell the curve to measure from. */
const EARLY = 12;

/**
 * Is anything different? Each feature of each band, less what conditions explain, is put on control charts and searched
 * for a step; the step with most evidence in any of them parts the healthy rounds from the changed ones. Without one, the
 * newest round is held against all before it, or the two newest where both are beyond those before them. Faults that came and went are set apart first, see
 * {@link roundsApart}. Rounds marked as baseline, where there are any, are the only healthy ones; those marked not to be
 * never are.
 *
 * @param rounds - over one field, rising in time
 * @param bands - how many are followed
 * @param repairsMs - times of the repairs that were noted, rising
 */
export function watchRounds(
  rounds: readonly WatchedRound[],
  bands: number,
  repairsMs: readonly number[] = [],
): Watch {
  const everyBand = Array.from({ length: bands }, (_, band) => band);
  const seriesFrom = (healthy: readonly WatchedRound[]): Series[] =>
    everyBand.flatMap((band) => {
      const curve = meanCurve(healthy.map(({ ofBand }) => ofBand[band]?.curve ?? null));
      return CHARTED.map((feature) => seriesOf(rounds, band, feature, curve));
    });
  const marked = rounds.filter(({ baseline }) => baseline === true);
  // Until it is known which rounds are healthy, the first ones tell the curve to measure from.
  const whole = seriesFrom(marked.length > 0 ? marked : rounds.slice(0, EARLY));
  const firstOfAll = strongestStep(rounds, whole, 0, STRONG);
  const apart = roundsApart(rounds, whole, firstOfAll?.at ?? null, repairsMs);
  const isApart = new Set(apart.flatMap(({ places }) => places));
  const early = whole.map((series) => seriesWithout(series, isApart));
  const first = apart.length === 0 ? firstOfAll : strongestStep(rounds, early, 0, STRONG);
  // A repair or a second fault after it: hold against the newest level, when that step is no mere ripple.
  const second =
    first === null ? null : strongestStep(rounds, early, first.at, Math.max(STRONG, first.evidence / 4));
  const newest = rounds.length - 1;
  const timeOf = (place: number): number => (rounds[place] as WatchedRound).timeMs;
  // A step at the last place that the search allows may have taken a healthy round along.
  const young =
    (first === null || first.at === newest + 1 - SHORTEST_SEGMENT) && newestPairStands(rounds, early);
  const stepAt = young ? newest - 1 : (first?.at ?? null);
  const healthyUntil = stepAt ?? newest;
  const changedFrom = Math.max(0, second?.at ?? healthyUntil);
  const mayServe = (baseline: boolean | null): boolean =>
    marked.length > 0 ? baseline === true : baseline !== false;
  const healthy = rounds.flatMap(({ baseline }, place) =>
    place < healthyUntil && mayServe(baseline) && !isApart.has(place) ? [place] : [],
  );
  const isHealthy = new Set(healthy);
  const charts = seriesFrom(healthy.map((place) => rounds[place] as WatchedRound)).map((series) =>
    chartOf(rounds, series, isHealthy, isApart),
  );
  // Two visits cannot tell a fault that grows from one that comes and goes: the newest says what stands now.
  const since = young ? [newest] : rounds.map((_, place) => place).slice(changedFrom);
  const standing = since.filter((place) => !isApart.has(place));
  const repairedMs = repairsMs.findLast((ms) => ms <= timeOf(newest)) ?? Number.NEGATIVE_INFINITY;
  const changed = standing.filter((place) => place === newest || timeOf(place) > repairedMs);
  return {
    charts,
    healthy,
    changed,
    judgedBy:
      stepAt === null
        ? 'newest'
        : young
          ? 'young-step'
          : changed.length < standing.length
            ? 'repair'
            : 'step',
    apart,
    changeAt: stepAt === null ? null : changedFrom,
    beyond: isBeyond(charts, newest),
  };
}

function isBeyond(charts: readonly FeatureChart[], newest: number): boolean | null {
  const telling = charts.filter(
    ({ places, standardDeviation }) => places.at(-1) === newest && standardDeviation !== null,
  );
  if (telling.length === 0) return null;
  return telling.some(({ visits, ewmaSignals, cusumSignals }) =>
    [ewmaSignals.at(-1), cusumSignals.at(-1)].includes(visits.at(-1)),
  );
}

interface Step {
  /** Index among all rounds of the first one of the new level. */
  readonly at: number;
  readonly evidence: number;
}

/** The step with most evidence in any of the series, from a round on; null when none is strong and as large as a visit's scatter. */
function strongestStep(
  rounds: readonly WatchedRound[],
  series: readonly Series[],
  from: number,
  least: number,
): Step | null {
  let best: Step | null = null;
  for (const { places, values } of series) {
    const start = places.findIndex((place) => place >= from);
    if (start < 0) continue;
    const own = places.slice(start);
    const residuals = withoutConditions(
      own.map((place) => (rounds[place] as WatchedRound).conditions),
      values.subarray(start),
    );
    const step = findChangePoint(residuals);
    if (step === null || step.evidence < (best?.evidence ?? least)) continue;
    const scatter = Math.sqrt(step.rssWith / residuals.length);
    if (Math.abs(step.levelAfter - step.levelBefore) < scatter) continue;
    best = { at: own[step.index] as number, evidence: step.evidence };
  }
  return best;
}

/** Whether any series has the two newest rounds beyond all before them, which is too few for {@link strongestStep}. */
function newestPairStands(rounds: readonly WatchedRound[], series: readonly Series[]): boolean {
  const pair = [rounds.length - 2, rounds.length - 1];
  return series.some(({ places, values }) => {
    if (places.slice(-2).some((place, i) => place !== pair[i])) return false;
    return newestPairIsBeyond(
      withoutConditions(
        places.map((place) => (rounds[place] as WatchedRound).conditions),
        values,
      ),
    );
  });
}
