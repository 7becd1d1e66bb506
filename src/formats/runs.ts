/** A stretch of points through which the frequency keeps one direction; both ends belong to it. */
export interface Run {
  readonly from: number;
  readonly to: number;
  readonly falling: boolean;
}

/** How much of the shorter run's range two runs must share to be two shots of the same range. */
const SHARED_RANGE = 0.8;

/**
 * Cuts a column of frequencies where it starts again. Two neighbouring runs count as two sweeps when they cover the
 * same range, or when both have three points or more, the same direction and nothing in common; anything else is
 * rows out of order, and which row is wrong cannot be told.
 *
 * @param breaks - indices at which the file itself starts a new sweep, rising
 * @returns the runs, or the index of the first point out of order
 */
export function findRuns(frequency: Float64Array, breaks: readonly number[]): Run[] | { disorderAt: number } {
  const runs: Run[] = [];
  const forced = new Set(breaks);
  let from = 0;
  let direction = 0;
  for (let i = 1; i <= frequency.length; i++) {
    const step =
      i < frequency.length ? Math.sign((frequency[i] as number) - (frequency[i - 1] as number)) : 0;
    const turns = step !== 0 && direction !== 0 && step !== direction;
    if (i === frequency.length || forced.has(i) || turns) {
      runs.push({ from, to: i - 1, falling: direction < 0 });
      from = i;
      direction = 0;
    } else if (direction === 0) direction = step;
  }
  for (let k = 1; k < runs.length; k++) {
    const run = runs[k] as Run;
    if (!forced.has(run.from) && !separate(frequency, runs[k - 1] as Run, run))
      return { disorderAt: run.from };
  }
  return runs;
}

function separate(frequency: Float64Array, before: Run, after: Run): boolean {
  const [a, b] = [rangeOf(frequency, before), rangeOf(frequency, after)];
  const shared = Math.min(a.high, b.high) - Math.max(a.low, b.low);
  const shorter = Math.min(a.high - a.low, b.high - b.low);
  if (shorter > 0 && shared >= SHARED_RANGE * shorter) return true;
  const long = (run: Run): boolean => run.to - run.from >= 2;
  return shared < 0 && long(before) && long(after) && before.falling === after.falling;
}

function rangeOf(frequency: Float64Array, run: Run): { low: number; high: number } {
  const ends = [frequency[run.from] as number, frequency[run.to] as number] as const;
  return { low: Math.min(...ends), high: Math.max(...ends) };
}
