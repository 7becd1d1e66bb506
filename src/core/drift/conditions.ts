import { Matrix, solve } from 'ml-matrix';
import type { Reading } from '../record.ts';

/** The weather and soil of a visit; null where nobody logged it. */
export interface Conditions {
  /** Fraction. */
  readonly moisture: number | null;
  /** °C. */
  readonly temperature: number | null;
  /** Sum over the days before, m; null when no rain was ever logged. */
  readonly rainM: number | null;
  /** Time of the year, rad. */
  readonly seasonRad: number;
}

/** How conditions move a feature, learnt from healthy visits. */
export interface ConditionModel {
  readonly parameters: number;
  expected(conditions: Conditions): number;
}

const DAY_MS = 86_400_000;
const YEAR_MS = 365.25 * DAY_MS;
const READING_DAYS = 2;
const RAIN_DAYS = 7;

/**
 * Tells the conditions at any time from the readings of a logbook: moisture and temperature within two days, rain over
 * the week before.
 */
export function conditionTeller(readings: readonly Reading[]): (time: string) => Conditions {
  const moisture = timeline(readings, 'soil-moisture');
  const temperature = timeline(readings, 'temperature');
  const rain = timeline(readings, 'rain');
  return (time) => {
    const at = Date.parse(time);
    return {
      moisture: nearest(moisture, at),
      temperature: nearest(temperature, at),
      rainM: rain.length === 0 ? null : sumBetween(rain, at - RAIN_DAYS * DAY_MS, at),
      seasonRad: (2 * Math.PI * at) / YEAR_MS,
    };
  };
}

interface Instant {
  readonly at: number;
  readonly value: number;
}

/** Readings of one kind, rising in time. */
function timeline(readings: readonly Reading[], kind: Reading['kind']): Instant[] {
  return readings
    .flatMap((reading) =>
      reading.kind === kind && reading.value !== null
        ? [{ at: Date.parse(reading.time), value: reading.value }]
        : [],
    )
    .sort((a, b) => a.at - b.at);
}

/** Index of the first instant at or after a time. */
function firstFrom(instants: readonly Instant[], at: number): number {
  let [low, high] = [0, instants.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((instants[middle] as Instant).at < at) low = middle + 1;
    else high = middle;
  }
  return low;
}

function nearest(instants: readonly Instant[], at: number): number | null {
  const next = firstFrom(instants, at);
  const near = [instants[next - 1], instants[next]]
    .filter((instant) => instant !== undefined && Math.abs(instant.at - at) <= READING_DAYS * DAY_MS)
    .sort((a, b) => Math.abs((a as Instant).at - at) - Math.abs((b as Instant).at - at));
  return near[0]?.value ?? null;
}

function sumBetween(instants: readonly Instant[], from: number, to: number): number {
  let sum = 0;
  for (let i = firstFrom(instants, from); i < instants.length; i++) {
    const { at, value } = instants[i] as Instant;
    if (at > to) break;
    sum += value;
  }
  return sum;
}

/** Visits needed for each coefficient, and the share of a year that a season's curve needs. */
const VISITS_PER_COEFFICIENT = 6;
const SEASONS_COVERED = 0.75;

/**
 * Least-squares dependence on what was logged: moisture, temperature and rain each linear, the season as one yearly
 * wave. A term enters only when nearly every visit knows it and there are six visits for each coefficient; the season
 * only when the visits cover three quarters of a year.
 *
 * @param values - one per visit
 * @returns null when nothing enters: the plain mean serves then
 */
export function fitConditions(
  conditions: readonly Conditions[],
  values: Float64Array,
): ConditionModel | null {
  const terms = termsFor(conditions);
  if (terms.length === 0 || values.length < VISITS_PER_COEFFICIENT * (terms.length + 1)) return null;
  const columns = terms.length + 1;
  const row = new Float64Array(columns).fill(1);
  const fill = (at: Conditions): void => {
    for (let k = 1; k < columns; k++) row[k] = (terms[k - 1] as Term)(at);
  };
  const normal = Matrix.zeros(columns, columns);
  const right = Matrix.zeros(columns, 1);
  const sums = new Float64Array(columns * (columns + 1));
  for (let i = 0; i < conditions.length; i++) {
    fill(conditions[i] as Conditions);
    for (let j = 0; j < columns; j++) {
      const x = row[j] as number;
      const start = j * (columns + 1);
      for (let k = 0; k < columns; k++)
        sums[start + k] = (sums[start + k] as number) + x * (row[k] as number);
      sums[start + columns] = (sums[start + columns] as number) + x * (values[i] as number);
    }
  }
  for (let j = 0; j < columns; j++) {
    for (let k = 0; k < columns; k++) normal.set(j, k, sums[j * (columns + 1) + k] as number);
    right.set(j, 0, sums[j * (columns + 1) + columns] as number);
  }
  const coefficients = solve(normal, right, true).getColumn(0);
  return {
    parameters: terms.length,
    expected(at) {
      fill(at);
      return coefficients.reduce((sum, coefficient, k) => sum + coefficient * (row[k] as number), 0);
    },
  };
}

type Term = (conditions: Conditions) => number;

function termsFor(conditions: readonly Conditions[]): Term[] {
  const terms: Term[] = [];
  for (const key of ['moisture', 'temperature', 'rainM'] as const) {
    const known = conditions.map((at) => at[key]).filter((value) => value !== null);
    if (known.length < 0.9 * conditions.length) continue;
    const middle = known.reduce((sum, value) => sum + value, 0) / known.length;
    const spread = Math.sqrt(known.reduce((sum, value) => sum + (value - middle) ** 2, 0) / known.length);
    if (spread > 0) terms.push((at) => ((at[key] ?? middle) - middle) / spread);
  }
  const months = new Set(
    conditions.map(({ seasonRad }) => Math.floor((seasonRad / (2 * Math.PI)) * 12) % 12),
  );
  if (months.size >= 12 * SEASONS_COVERED) {
    terms.push(
      ({ seasonRad }) => Math.cos(seasonRad),
      ({ seasonRad }) => Math.sin(seasonRad),
    );
  }
  return terms;
}
