import type { Random } from '../random.ts';
import { below } from './mutate.ts';
import { ODD_NUMBERS, ODD_WORDS } from './odd-words.ts';

/** A JSON document with one to four of its values or keys changed; it stays JSON. */
export function mutateJson(random: Random, document: string, words: readonly string[]): string {
  const root = { value: JSON.parse(document) as unknown };
  const steps = 1 + below(random, 4);
  for (let i = 0; i < steps; i++) change(random, random.pick(holdersIn(root)), words);
  return JSON.stringify(root.value) ?? 'null';
}

type Holder = Record<string, unknown> | unknown[];

/** Every object and list of a document. */
function holdersIn(value: unknown): Holder[] {
  if (typeof value !== 'object' || value === null) return [];
  return [value as Holder, ...Object.values(value).flatMap(holdersIn)];
}

function change(random: Random, holder: Holder, words: readonly string[]): void {
  const keys = Object.keys(holder);
  const key = keys.length === 0 ? '0' : random.pick(keys);
  const values = holder as Record<string, unknown>;
  const what = below(random, 6);
  if (what <= 2) values[key] = oddValue(random, values[key], words);
  else if (what === 3) delete values[key];
  else if (Array.isArray(holder)) {
    const more = Array.from({ length: below(random, random.chance(0.02) ? 3000 : 6) }, () => values[key]);
    holder.splice(below(random, holder.length + 1), 0, ...more);
  } else values[random.pick([...ODD_WORDS, ...words])] = random.chance(0.5) ? values[key] : 1;
}

/** Another value, of the same kind more often than not. */
function oddValue(random: Random, value: unknown, words: readonly string[]): unknown {
  const unit = typeof value === 'string' ? /[^\d.+-].*$/u.exec(value)?.[0] : undefined;
  const number = Number(random.pick(ODD_NUMBERS));
  return random.pick<unknown>([
    random.pick(ODD_NUMBERS) + (unit ?? ''),
    Number.isFinite(number) ? number : -1.5,
    random.pick(words.length === 0 ? ODD_WORDS : words),
    random.pick(ODD_WORDS),
    typeof value === 'string' ? value + random.pick(ODD_WORDS) : [value],
    null,
    true,
    [],
    {},
    { value },
    1e9,
    -1,
  ]);
}
