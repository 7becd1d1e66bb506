import type { CarefulFigures } from './careful-figures.ts';
import { numbered } from './numbered.ts';
import type { SafetyAnswer } from './page-data/safety-answer.ts';
import { listed } from './words.ts';

type Border = NonNullable<SafetyAnswer['border']>;

/**
 * The radials that those beyond the border can come too near to, and what to do about each; nothing where none are.
 *
 * @param reach - the distance that people keep off, in words
 * @param raised - whether the wires hang
 */
export function borderWords(
  { ends, beyond, passing }: Pick<Border, 'ends' | 'beyond' | 'passing'>,
  reach: string,
  raised: boolean,
): string[] {
  const within = ends.filter((radial) => !beyond.includes(radial));
  const sentence = (radials: readonly number[], words: (one: boolean, it: string) => string): string[] =>
    radials.length === 0 ? [] : [words(radials.length === 1, radials.length === 1 ? 'it' : 'them')];
  return [
    ...sentence(
      beyond,
      (one, it) =>
        `${numbered('radial', beyond)} ${one ? 'ends' : 'end'} beyond the border, where nobody can be asked to keep off: end ${it} earlier`,
    ),
    ...sentence(
      within,
      (one, it) =>
        `${one ? 'the end' : 'the ends'} of ${numbered('radial', within)} ${one ? 'comes' : 'come'} within ${reach} of the border: whoever stands beyond can touch ${it} or come near, so put up a fence there, or end ${it} earlier`,
    ),
    ...sentence(
      passing,
      (one, it) =>
        `${numbered('radial', passing)} ${one ? 'passes' : 'pass'} within ${reach} of the border and can be touched all along: put up a fence there, or ${raised ? `hang ${it} higher` : `bury ${it}`}`,
    ),
  ];
}

/** What of the answer reaches over the border of the lot. */
export function borderSentences(safety: SafetyAnswer, { kept, present }: CarefulFigures): string[] {
  const { border, bands, radials, touchDistanceM } = safety;
  if (border === null) return [];
  const what = border.keepOffM > touchDistanceM ? 'the distance to keep off' : 'arm’s reach';
  const over = bands.filter(({ distanceM }) => distanceM > border.distanceM);
  const most = Math.max(...over.map(({ distanceM }) => distanceM));
  const circle =
    over.length === 0
      ? []
      : [
          `on ${listed([...new Set(over.map(({ band }) => band))])} the distance to keep from the antenna (${kept(most)}) reaches over the border, ${present(border.distanceM)} off: name places beyond it to be told how much power is clear there`,
        ];
  return [...circle, ...borderWords(border, `${what} (${kept(border.keepOffM)})`, radials.mayHang)];
}
