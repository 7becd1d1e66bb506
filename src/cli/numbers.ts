import { UserError } from '../core/user-error.ts';
import { runsOf } from '../formats/numbered.ts';

export { numbered } from '../formats/numbered.ts';

/**
 * Numbers as people write them: `5-8`, `5,7`, `5-8,12`.
 * @throws UserError `numbers-unreadable`
 */
export function parseNumbers(texts: readonly string[], field: string): number[] {
  const numbers = new Set<number>();
  for (const part of texts.flatMap((text) => text.split(',')).map((text) => text.trim())) {
    const [, from = '', to = from] = /^(\d{1,6})(?:-(\d{1,6}))?$/u.exec(part) ?? [];
    if (from === '' || Number(to) < Number(from) || Number(from) < 1) {
      throw new UserError('numbers-unreadable', `needs numbers such as 5-8 or 5,7, got "${part}"`, {
        kind: 'command-line',
        place: { field },
      });
    }
    for (let number = Number(from); number <= Number(to); number++) numbers.add(number);
  }
  return [...numbers];
}

/** Numbers as {@link parseNumbers} takes them, for a command line: `1-4,7`. */
export function numbersText(numbers: readonly number[]): string {
  return runsOf(numbers)
    .map(([from, to]) => (from === to ? `${from}` : `${from}-${to}`))
    .join(',');
}
