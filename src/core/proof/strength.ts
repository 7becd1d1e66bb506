import { createRandomSource } from './random.ts';
import { CONFIDENCE, studentQuantile } from './student.ts';
import { median } from './summary.ts';
import type { Verdict } from './verdict.ts';

/** A received level at a place. */
export interface StrengthReading {
  readonly place: string;
  readonly levelDb: number;
  /** Transmitter power behind it; null when it was not noted. */
  readonly powerW: number | null;
}

/** What received strength says of a change, place by place. */
export interface StrengthComparison {
  readonly places: readonly {
    readonly place: string;
    readonly differenceDb: number;
    readonly readingsBefore: number;
    readonly readingsAfter: number;
  }[];
  /** Median over the places; null without any that was read on both sides. */
  readonly medianDb: number | null;
  /** Half-width of the bootstrap interval about the median; null below {@link LEAST_PAIRS} places. */
  readonly expandedUncertaintyDb: number | null;
  readonly intervalDb: readonly [fromDb: number, toDb: number] | null;
  /** Between places: 1.4826 times the median distance from the median, which is the deviation of a normal one. */
  readonly spreadDb: number | null;
  readonly verdict: Verdict;
  readonly notes: readonly string[];
}

/**
 * Fewest places for a verdict: with five, all would agree by chance once in sixteen; with six, once in
 * thirty-two, which is below 5 %.
 */
export const LEAST_PAIRS = 6;

const RESAMPLES = 2000;

/** Medians of few values are lumpy: at this level 2 to 6 % of the intervals miss the truth in a simulation. */
const RESAMPLED_LEVEL = 0.97;
const SEED = 20_240_229;
const NORMAL = 1.4826;

/**
 * Compares received levels before and after, paired by place, so that what differs between places drops out. The
 * median lets a single odd place do no harm; its interval comes from resampling the places.
 *
 * Source: B. Efron and R. J. Tibshirani, An Introduction to the Bootstrap (1993), ch. 13.
 */
export function compareStrength(
  before: readonly StrengthReading[],
  after: readonly StrengthReading[],
): StrengthComparison {
  const notes: string[] = [];
  const places = [...new Set(before.map(({ place }) => place))].flatMap((place) => {
    const pair = [before, after].map((side) => side.filter((reading) => reading.place === place));
    const [then = [], now = []] = pair;
    if (now.length === 0) return [];
    const powers = [...then, ...now].filter(({ powerW }) => powerW !== null).length;
    if (powers > 0 && powers < then.length + now.length) {
      notes.push(`${place} is left out: the power was noted for some of its readings only`);
      return [];
    }
    return {
      place,
      differenceDb: median(now.map(atOneWatt)) - median(then.map(atOneWatt)),
      readingsBefore: then.length,
      readingsAfter: now.length,
    };
  });
  if (places.length > 0 && [...before, ...after].every(({ powerW }) => powerW === null)) {
    notes.push('no power was noted with the levels: they are taken to be of one and the same power');
  }
  const differences = places.map(({ differenceDb }) => differenceDb);
  if (places.length === 0) return { ...NOTHING, notes };
  const medianDb = median(differences);
  const spreadDb = places.length < 2 ? null : NORMAL * median(differences.map((d) => Math.abs(d - medianDb)));
  if (places.length < LEAST_PAIRS) {
    notes.push(
      `levels of ${places.length} place${places.length === 1 ? '' : 's'} were read on both sides: a verdict needs ${LEAST_PAIRS}`,
    );
    return { ...NOTHING, places, medianDb, spreadDb, notes };
  }
  const intervalDb = bootstrapOfMedian(differences);
  return {
    places,
    medianDb,
    expandedUncertaintyDb: Math.max(medianDb - intervalDb[0], intervalDb[1] - medianDb),
    intervalDb,
    spreadDb,
    verdict: intervalDb[0] > 0 ? 'improved' : intervalDb[1] < 0 ? 'worse' : 'not shown',
    notes,
  };
}

const NOTHING: StrengthComparison = {
  places: [],
  medianDb: null,
  expandedUncertaintyDb: null,
  intervalDb: null,
  spreadDb: null,
  verdict: 'not shown',
  notes: [],
};

function atOneWatt({ levelDb, powerW }: StrengthReading): number {
  return powerW === null ? levelDb : levelDb - 10 * Math.log10(powerW);
}

/**
 * Interval of the median by resampling with a fixed seed: the same readings give the same answer. A plain percentile
 * interval of a few values is too narrow, and is stretched as Student's t stretches the normal one.
 *
 * Source: T. C. Hesterberg, What teachers should know about the bootstrap, The American Statistician 69(4), 2015, sec. 4.
 */
function bootstrapOfMedian(values: readonly number[]): [number, number] {
  const random = createRandomSource(SEED);
  const n = values.length;
  const centre = median(values);
  const medians = new Float64Array(RESAMPLES);
  const resample = new Float64Array(n);
  for (let i = 0; i < RESAMPLES; i++) {
    for (let j = 0; j < n; j++) resample[j] = values[random.below(n)] as number;
    medians[i] = median(resample);
  }
  medians.sort();
  const cut = Math.floor(((1 - RESAMPLED_LEVEL) / 2) * RESAMPLES);
  const wider =
    studentQuantile((1 + CONFIDENCE) / 2, n - 1) /
    studentQuantile((1 + CONFIDENCE) / 2, Number.POSITIVE_INFINITY);
  const stretched = (end: number): number => centre + (end - centre) * wider * Math.sqrt(n / (n - 1));
  return [stretched(medians[cut] as number), stretched(medians[RESAMPLES - 1 - cut] as number)];
}
