/**
 * Text from files and instruments made harmless for a terminal: control characters (escape sequences,
 * carriage returns, backspaces) and the invisible characters that reorder text are shown as `\u{…}`.
 * Line ends and tabs stay.
 */
export function plainText(text: string): string {
  return text.replace(
    // biome-ignore lint/suspicious/noControlCharactersInRegex: finding control characters is the purpose
    /[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069]/gu,
    (character) => `\\u{${character.codePointAt(0)?.toString(16)}}`,
  );
}

/** A value as JSON in which all that {@link plainText} would show otherwise is escaped: the same value to a program. */
export function plainJson(value: unknown, indent?: number): string {
  return JSON.stringify(value, null, indent).replace(
    /[\u007f-\u009f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069]/gu,
    (character) => `\\u${character.charCodeAt(0).toString(16).padStart(4, '0')}`,
  );
}

/** Somebody's text on one line, so that it cannot look like a line of ours. */
export function oneLine(text: string): string {
  if (!/[\r\n]/u.test(text)) return text;
  const lines = text.split(/[\r\n]+/u).map((line) => line.trim());
  return lines.filter((line) => line !== '').join(' / ');
}
