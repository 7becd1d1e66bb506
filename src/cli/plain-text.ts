/**
 * Text from files and instruments made harmless for a terminal: control characters (escape sequences,
 * carriage returns, backspaces) and the invisible characters that reorder text are shown as `\u{…}`.
 * Line ends and tabs stay.
 */
export function plainText(text: string): string {
  return text.replace(
    // biome-ignore lint/suspicious/noControlCharactersInRegex: finding control characters is the purpose
    /[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u200e\u200f\u202a-\u202e\u2066-\u2069]/gu,
    (character) => `\\u{${character.codePointAt(0)?.toString(16)}}`,
  );
}
