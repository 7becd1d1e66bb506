import type { FieldForm } from './message-layouts.ts';

/** Why one field cannot be read. */
export type FieldFailure = 'bad-number' | 'out-of-range' | 'bad-choice' | 'bad-text';

/** Reads the bytes from `start` to before `end` as one field: a number, a text, or the name of what is wrong. */
export function readField(
  form: FieldForm,
  bytes: Uint8Array,
  start: number,
  end: number,
): { readonly value: number | string } | FieldFailure {
  switch (form.form) {
    case 'integer': {
      const value = readInteger(bytes, start, end);
      if (Number.isNaN(value)) return 'bad-number';
      return value < form.min || value > form.max ? 'out-of-range' : { value };
    }
    case 'hex': {
      const value = end - start === 4 ? readHex4(bytes, start) : Number.NaN;
      return Number.isNaN(value) ? 'bad-number' : { value };
    }
    case 'choice': {
      const value = asciiText(bytes, start, end);
      return form.choices.includes(value) ? { value } : 'bad-choice';
    }
    case 'text':
      return isPlainText(bytes, start, end, form.maxLength)
        ? { value: asciiText(bytes, start, end) }
        : 'bad-text';
  }
}

/**
 * An integer in its one permitted spelling: `0`, or an optional `-` and digits that do not start with 0.
 *
 * @returns the value, which is inexact past 2⁵³ (far outside every field's limits); NaN for another spelling
 */
export function readInteger(bytes: Uint8Array, start: number, end: number): number {
  const negative = bytes[start] === MINUS;
  const first = negative ? start + 1 : start;
  if (first >= end) return Number.NaN;
  if (bytes[first] === DIGIT_0 && (negative || end - first > 1)) return Number.NaN;
  let value = 0;
  for (let i = first; i < end; i++) {
    const digit = (bytes[i] as number) - DIGIT_0;
    if (digit < 0 || digit > 9) return Number.NaN;
    value = value * 10 + digit;
  }
  return negative ? -value : value;
}

/** Four upper-case hexadecimal digits from `start`; NaN when they are anything else. */
export function readHex4(bytes: Uint8Array, start: number): number {
  let value = 0;
  for (let i = start; i < start + 4; i++) {
    const byte = bytes[i] as number;
    if (byte >= DIGIT_0 && byte <= DIGIT_0 + 9) value = value * 16 + byte - DIGIT_0;
    else if (byte >= LETTER_A && byte <= LETTER_A + 5) value = value * 16 + byte - LETTER_A + 10;
    else return Number.NaN;
  }
  return value;
}

/** Bytes 0 to 255 as the characters of the same code. */
export function asciiText(bytes: Uint8Array, start = 0, end: number = bytes.length): string {
  let text = '';
  for (let i = start; i < end; i++) text += String.fromCharCode(bytes[i] as number);
  return text;
}

const DIGIT_0 = 0x30;
const LETTER_A = 0x41;
const MINUS = 0x2d;
const SPACE = 0x20;

/**
 * Text that harms nobody: it starts with a letter or digit (a spreadsheet takes `=1+1` for a formula), does
 * not end with a space, and has no character with a meaning in HTML, a shell or a terminal.
 */
function isPlainText(bytes: Uint8Array, start: number, end: number, maxLength: number): boolean {
  if (end === start || end - start > maxLength) return false;
  for (let i = start; i < end; i++) if (!PLAIN[bytes[i] as number]) return false;
  return isLetterOrDigit(bytes[start] as number) && bytes[end - 1] !== SPACE;
}

function isLetterOrDigit(byte: number): boolean {
  return PLAIN[byte] === LETTER_OR_DIGIT;
}

const LETTER_OR_DIGIT = 2;
const PLAIN: Uint8Array = plainCharacters();

function plainCharacters(): Uint8Array {
  const plain = new Uint8Array(256);
  const mark = (characters: string, as: number): void => {
    for (const character of characters) plain[character.charCodeAt(0)] = as;
  };
  mark(' .-_+/():', 1);
  mark('0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz', LETTER_OR_DIGIT);
  return plain;
}
