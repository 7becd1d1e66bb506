/** Bytes as characters, one to one: nothing is lost, and nothing can fail. */
export function latin1Text(bytes: Uint8Array): string {
  let text = '';
  for (let i = 0; i < bytes.length; i++) text += String.fromCharCode(bytes[i] as number);
  return text;
}

/** The way back from {@link latin1Text}. */
export function latin1Bytes(text: string): Uint8Array {
  return Uint8Array.from(text, (character) => character.charCodeAt(0));
}
