const SHOWN_CHARACTERS = 60;

/**
 * Text from a wire, made harmless to print: what is no printable ASCII appears as `\xNN`, quotes and backslashes are
 * escaped, and a long text is cut. Whoever puts it into a page escapes it once more for that.
 */
export function deviceText(bytes: Uint8Array, limit: number = SHOWN_CHARACTERS): string {
  let text = '';
  for (let i = 0; i < bytes.length; i++) {
    if (text.length >= limit) return `"${text}…" (${bytes.length} bytes)`;
    const byte = bytes[i] as number;
    if (byte === 0x22 || byte === 0x5c) text += `\\${String.fromCharCode(byte)}`;
    else if (byte >= 0x20 && byte <= 0x7e) text += String.fromCharCode(byte);
    else text += `\\x${byte.toString(16).padStart(2, '0')}`;
  }
  return `"${text}"`;
}

/**
 * A name that an instrument gives itself, fit to be stored in a spreadsheet and shown anywhere: only letters, digits,
 * spaces and `. - _ + / ( ) :`, first a letter or digit, at most 40 characters.
 * @returns null when nothing is left
 */
export function deviceName(text: string): string | null {
  const name = text
    .replace(/[^A-Za-z0-9._+/():-]+/gu, ' ')
    .replace(/^[^A-Za-z0-9]+/u, '')
    .slice(0, 40)
    .trim();
  return name === '' ? null : name;
}
