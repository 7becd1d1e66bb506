/** `1 point`, `2 points`. */
export function plural(count: number, noun: string): string {
  return `${count} ${noun}${count === 1 ? '' : 's'}`;
}

/** Words as a sentence: a capital first, but for units such as dB, and an end. */
export function asSentence(text: string): string {
  const trimmed = text.trim();
  const first = /^\p{Ll}\p{Lu}/u.test(trimmed) ? trimmed.charAt(0) : trimmed.charAt(0).toUpperCase();
  return `${first}${trimmed.slice(1)}${/[.!?]$/u.test(trimmed) ? '' : '.'}`;
}
