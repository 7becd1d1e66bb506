/**
 * The candidate a mistyped word most likely meant, or undefined when none is near: the smallest edit
 * distance (insert, delete, replace, swap of neighbours), at most a third of the longer word.
 */
export function nearMiss(word: string, candidates: Iterable<string>): string | undefined {
  let best: string | undefined;
  let bestDistance = Number.POSITIVE_INFINITY;
  for (const candidate of candidates) {
    const distance = editDistance(word.toLowerCase(), candidate.toLowerCase());
    const allowed = Math.max(1, Math.floor(Math.max(word.length, candidate.length) / 3));
    if (distance <= allowed && distance < bestDistance) {
      best = candidate;
      bestDistance = distance;
    }
  }
  return best;
}

/** `, did you mean "height"?`, or the empty string. */
export function didYouMean(word: string, candidates: Iterable<string>): string {
  const meant = nearMiss(word, candidates);
  return meant === undefined ? '' : `, did you mean "${meant}"?`;
}

/** Optimal string alignment distance. A word longer than any we know is as far off as it is long. */
function editDistance(a: string, b: string): number {
  if (Math.abs(a.length - b.length) > 8) return Math.max(a.length, b.length);
  let [before, last] = [[] as number[], Array.from({ length: b.length + 1 }, (_, j) => j)];
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const replace = (last[j - 1] as number) + (a[i - 1] === b[j - 1] ? 0 : 1);
      let least = Math.min(replace, (last[j] as number) + 1, (row[j - 1] as number) + 1);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) {
        least = Math.min(least, (before[j - 2] as number) + 1);
      }
      row.push(least);
    }
    [before, last] = [last, row];
  }
  return last[b.length] as number;
}
