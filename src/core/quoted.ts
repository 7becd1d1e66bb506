/** How much of somebody's own text a message repeats. */
const QUOTED_CHARACTERS = 40;

/** Somebody's own text in quotes, shortened, so that no input makes a message as long as itself. */
export function quoted(text: string): string {
  const trimmed = text.trim();
  return trimmed.length <= QUOTED_CHARACTERS ? `"${trimmed}"` : `"${trimmed.slice(0, QUOTED_CHARACTERS)}…"`;
}
