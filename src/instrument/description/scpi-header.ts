/**
 * Whether a command header is one of the spellings of a pattern as the manuals print it: `[SENSe:]FREQuency:STARt`,
 * `SYSTem:ERRor[:NEXT]?`. Of each word exactly the short form (its capitals) and the long form are valid, in any case;
 * what stands in [ ] may be left out; a numeric suffix of 1 is the same as none; a leading colon changes nothing.
 *
 * Source: SCPI-1999 vol. 1, 6.2 (mnemonics, published); optional nodes and numeric suffixes from memory.
 */
export function matchesScpiHeader(pattern: string, header: string): boolean {
  return expression(pattern).test(header.trim());
}

/** The short form of a word as printed: its capitals. */
export function scpiShortForm(word: string): string {
  return word.replace(/[a-z]+$/u, '');
}

const expressions = new Map<string, RegExp>();

function expression(pattern: string): RegExp {
  let found = expressions.get(pattern);
  if (found === undefined) {
    const source = pattern.replace(/[*?]/gu, '\\$&').replaceAll('[', '(?:').replaceAll(']', ')?');
    const words = source.replace(/\\\*[A-Z]+|[A-Z]+[a-z]*/gu, (word) =>
      word.startsWith('\\*') ? word : `(?:${scpiShortForm(word)}|${word})1?`,
    );
    found = new RegExp(`^:?${words}$`, 'iu');
    expressions.set(pattern, found);
  }
  return found;
}
