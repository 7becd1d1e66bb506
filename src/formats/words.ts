/** `1 point`, `2 points`. */
export function plural(count: number, noun: string): string {
  return `${count} ${noun}${count === 1 ? '' : 's'}`;
}

/** How much of a file's own text a message repeats. */
const QUOTED_CHARACTERS = 40;

/** A file's own text in quotes, shortened. */
export function quoted(text: string): string {
  const trimmed = text.trim();
  return trimmed.length <= QUOTED_CHARACTERS ? `"${trimmed}"` : `"${trimmed.slice(0, QUOTED_CHARACTERS)}…"`;
}

/** Words as a sentence: a capital first, but for units such as dB, and an end. */
export function asSentence(text: string): string {
  const trimmed = text.trim();
  const first = /^\p{Ll}\p{Lu}/u.test(trimmed) ? trimmed.charAt(0) : trimmed.charAt(0).toUpperCase();
  return `${first}${trimmed.slice(1)}${/[.!?]$/u.test(trimmed) ? '' : '.'}`;
}
