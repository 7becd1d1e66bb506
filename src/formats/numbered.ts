/** Numbered things for people: `radial 7`, `radials 1 to 4 and 7`. */
export function numbered(noun: string, numbers: readonly number[]): string {
  const words = runsOf(numbers).flatMap(([from, to]) =>
    to - from > 1 ? [`${from} to ${to}`] : from === to ? [`${from}`] : [`${from}`, `${to}`],
  );
  const last = words.pop() ?? '';
  const list = words.length === 0 ? last : `${words.join(', ')} and ${last}`;
  return `${noun}${numbers.length === 1 ? '' : 's'} ${list}`;
}

/** Numbers that follow one another, put together. */
export function runsOf(numbers: readonly number[]): [from: number, to: number][] {
  const runs: [from: number, to: number][] = [];
  for (const number of numbers) {
    const last = runs.at(-1);
    if (last !== undefined && number === last[1] + 1) last[1] = number;
    else runs.push([number, number]);
  }
  return runs;
}
