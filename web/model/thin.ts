/**
 * The places of a curve that a picture can show: the first, the last, the least and the largest of each of `columns`
 * equal parts of the way along, in their order. A curve with no more values than that stays whole.
 *
 * @param along - rising
 * @returns indices, rising, at most four times `columns`
 */
export function thin(along: ArrayLike<number>, values: ArrayLike<number>, columns: number): number[] {
  const n = along.length;
  if (n <= 4 * columns) return Array.from({ length: n }, (_, i) => i);
  const from = along[0] as number;
  const perColumn = ((along[n - 1] as number) - from) / columns;
  const kept: number[] = [];
  for (let start = 0; start < n; ) {
    const column = Math.min(columns - 1, Math.floor(((along[start] as number) - from) / perColumn));
    let [least, largest, end] = [start, start, start];
    for (; end < n; end++) {
      if (Math.min(columns - 1, Math.floor(((along[end] as number) - from) / perColumn)) !== column) break;
      if ((values[end] as number) < (values[least] as number)) least = end;
      if ((values[end] as number) > (values[largest] as number)) largest = end;
    }
    kept.push(...new Set([start, Math.min(least, largest), Math.max(least, largest), end - 1]));
    start = end;
  }
  return kept;
}
