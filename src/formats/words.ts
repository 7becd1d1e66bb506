export { plural } from '../core/plural.ts';

/** Words as a sentence: an end, and a capital first, but for units such as dB and names of files. */
export function asSentence(text: string): string {
  const trimmed = text.trim();
  const keeps = /^\p{Ll}\p{Lu}|^[\w-]+\.\w/u.test(trimmed);
  const first = keeps ? trimmed.charAt(0) : trimmed.charAt(0).toUpperCase();
  return `${first}${trimmed.slice(1)}${/[.!?]$/u.test(trimmed) ? '' : '.'}`;
}

/** `a`, `a and b`, `a, b and c`. */
export function listed(names: readonly string[]): string {
  return names.length < 2 ? (names[0] ?? '') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;
}
