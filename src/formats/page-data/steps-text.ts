const DIGITS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/';
/** Each digit carries five bits of a number, the lowest first, and a sixth that says whether more follow. */
const PLACE = 32;
/** Steps beyond these would not be whole any more. */
const MOST_STEPS = 1e15;

/** What {@link writeSteps} writes. */
export const STEPS_TEXT: RegExp = /^[A-Za-z0-9+/]*$/u;

const VALUES: Uint8Array = Uint8Array.from({ length: 128 }, (_, code) =>
  Math.max(0, DIGITS.indexOf(String.fromCharCode(code))),
);

/**
 * A column as text, rounded to whole steps: the first number, then what is added to each for the next one. Where
 * neighbours differ by little, each takes a letter or two, and a browser reads them faster than JSON numbers.
 *
 * Source: ECMA-426, Source map format, Base64 VLQ; here beyond 32 bits, as far as doubles are whole.
 */
export function writeSteps(column: Float64Array, stepsPerUnit: number): string {
  let text = '';
  let last = 0;
  for (let i = 0; i < column.length; i++) {
    const rounded = Math.round((column[i] as number) * stepsPerUnit);
    const next = Math.max(-MOST_STEPS, Math.min(MOST_STEPS, rounded));
    // The sign is the lowest bit.
    let rest = next < last ? 2 * (last - next) + 1 : 2 * (next - last);
    last = next;
    while (rest >= PLACE) {
      text += DIGITS.charAt(PLACE + (rest % PLACE));
      rest = Math.floor(rest / PLACE);
    }
    text += DIGITS.charAt(rest);
  }
  return text;
}

/**
 * Reads what {@link writeSteps} wrote.
 * @param text - as {@link STEPS_TEXT}
 * @param column - takes as many as it has room for
 * @returns how many there are
 */
export function readSteps(text: string, column: Float64Array, stepsPerUnit: number): number {
  let count = 0;
  let steps = 0;
  for (let i = 0; i < text.length; ) {
    let digit = VALUES[text.charCodeAt(i++)] as number;
    const isDown = digit & 1;
    let size = (digit & (PLACE - 1)) >> 1;
    for (let place = PLACE / 2; digit >= PLACE; place *= PLACE) {
      if (i === text.length) return count;
      digit = VALUES[text.charCodeAt(i++)] as number;
      size += (digit & (PLACE - 1)) * place;
    }
    steps += isDown ? -size : size;
    column[count++] = steps / stepsPerUnit;
  }
  return count;
}
