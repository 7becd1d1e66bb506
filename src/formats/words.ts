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
