import { textLines } from '../lines.ts';

/** A word of a line and where it stands, counted from 1. */
export interface Token {
  readonly text: string;
  readonly column: number;
}

/**
 * One line that says something, its `!` comment cut off: an option line (`#…`), a keyword (`[…]`) with its
 * arguments, or numbers. `indented` tells blanks before a keyword's bracket, which the specification forbids.
 */
export type TouchstoneLine =
  | { readonly kind: 'option'; readonly line: number; readonly text: string }
  | {
      readonly kind: 'keyword';
      readonly line: number;
      readonly keyword: string;
      readonly indented: boolean;
      readonly tokens: readonly Token[];
    }
  | { readonly kind: 'data'; readonly line: number; readonly tokens: readonly Token[] };

/**
 * Cuts a Touchstone text into its lines; comments and blank lines vanish, keywords come in lower case with single
 * blanks.
 * Source: Touchstone File Format Specification 2.1 (2024), general syntax rules.
 */
export function* touchstoneLines(text: string): Generator<TouchstoneLine> {
  for (const { text: whole, number: line } of textLines(text)) {
    const comment = whole.indexOf('!');
    const meaning = comment < 0 ? whole : whole.slice(0, comment);
    const trimmed = meaning.trim();
    if (trimmed === '') continue;
    if (trimmed.startsWith('#')) {
      yield { kind: 'option', line, text: trimmed };
      continue;
    }
    const keyword = /^(\s*)\[([^\]]*)\]/u.exec(meaning);
    if (keyword === null) {
      yield { kind: 'data', line, tokens: tokensOf(meaning, 0) };
      continue;
    }
    yield {
      kind: 'keyword',
      line,
      keyword: (keyword[2] as string)
        .trim()
        .toLowerCase()
        .replace(/[\s-]+/gu, ' '),
      indented: keyword[1] !== '',
      tokens: tokensOf(meaning, keyword[0].length),
    };
  }
}

function tokensOf(line: string, from: number): Token[] {
  const tokens: Token[] = [];
  const word = /\S+/gu;
  word.lastIndex = from;
  for (let found = word.exec(line); found !== null; found = word.exec(line)) {
    tokens.push({ text: found[0], column: found.index + 1 });
  }
  return tokens;
}
