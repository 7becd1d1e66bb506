import { oddAgainst } from '../proof/odd-value.ts';
import { DEFAULT_REFERENCE_OHM } from '../sweep/sweep.ts';
import type { Charted, Series, WatchedRound } from './feature-chart.ts';
import { withoutConditions } from './without-conditions.ts';

/** Rounds one after the other that stand apart from those before and after: a fault that came and went. By their indices. */
export interface RoundsApart {
  /** Rising, at least one. */
  readonly places: readonly number[];
  /** The first round that is back among the rest. */
  readonly backAt: number;
  /** The last repair noted in between, ms since 1970; null when none was. */
  readonly repairedMs: number | null;
}

/** What weather alone may do: without a repair that explains the return, a stretch must reach farther to count as a fault. */
const UNEXPLAINED = 6;
/** In |Γ|, standard: so little the visits of any site may differ by. Our own choice, as for a good instrument. */
const REFLECTION_SCATTER = 0.002;

/**
 * Stretches whose R at X = 0, or whose curve in a band where more rounds show that, lies far beyond the usual rounds,
 * between rounds that do not: by the rule that leaves odd visits out of a field state, see {@link oddAgainst}. What has
 * not come back is no such stretch but a change.
 *
 * @param stepAt - the rounds before it tell what is usual; null for all
 * @param repairsMs - times of repairs, rising
 * @returns rising
 */
export function roundsApart(
  rounds: readonly WatchedRound[],
  series: readonly Series[],
  stepAt: number | null,
  repairsMs: readonly number[],
): RoundsApart[] {
  const found = telling(series)
    .flatMap((own) => apartIn(rounds, own, stepAt ?? rounds.length, repairsMs))
    .sort((a, b) => (a.places[0] as number) - (b.places[0] as number));
  // Bands that show the same stretch tell of it once.
  return found.filter(
    ({ places }, i) =>
      !found.slice(0, i).some((other) => other.places.some((place) => places.includes(place))),
  );
}

function apartIn(
  rounds: readonly WatchedRound[],
  { feature, places, values }: Series,
  usualUntil: number,
  repairsMs: readonly number[],
): RoundsApart[] {
  const at = (entry: number): WatchedRound => rounds[places[entry] as number] as WatchedRound;
  const residuals = withoutConditions(
    places.map((_, entry) => at(entry).conditions),
    values,
  );
  const isOdd = oddAgainst(
    [...residuals].filter((_, i) => (places[i] as number) < usualUntil && at(i).baseline !== false),
  );
  const isBeyond = (entry: number, limit?: number): boolean =>
    isOdd(residuals[entry] as number, leastDeviation(feature, values[entry] as number), limit);

  const found: RoundsApart[] = [];
  let usual: number | null = null;
  for (let entry = 0; entry < places.length; entry++) {
    if (isBeyond(entry)) continue;
    const stretch = usual === null ? [] : range(usual + 1, entry);
    usual = entry;
    if (stretch.length === 0) continue;
    const lastMs = at(entry - 1).timeMs;
    const repairedMs = repairsMs.findLast((ms) => ms > lastMs && ms <= at(entry).timeMs) ?? null;
    if (repairedMs === null && !stretch.some((own) => isBeyond(own, UNEXPLAINED))) continue;
    const kept = stretch.filter((own) => at(own).baseline !== true).map((own) => places[own] as number);
    if (kept.length > 0) found.push({ places: kept, backAt: places[entry] as number, repairedMs });
  }
  return found;
}

/** One series of each band. */
function telling(series: readonly Series[]): Series[] {
  const of = (name: Charted): Series[] => series.filter(({ feature }) => feature === name);
  const curves = of('curve');
  return of('resistanceAtResonanceOhm').map((own) => {
    const curve = curves.find(({ band }) => band === own.band);
    return curve !== undefined && curve.places.length > own.places.length ? curve : own;
  });
}

/** What {@link REFLECTION_SCATTER} is of a figure: at X = 0, where Γ = (R − R₀)/(R + R₀), so much of R. */
function leastDeviation(feature: Charted, value: number): number {
  return feature === 'curve'
    ? REFLECTION_SCATTER
    : (REFLECTION_SCATTER * (value + DEFAULT_REFERENCE_OHM) ** 2) / (2 * DEFAULT_REFERENCE_OHM);
}

function range(from: number, until: number): number[] {
  return Array.from({ length: until - from }, (_, i) => from + i);
}
