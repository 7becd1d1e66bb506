import type { ReferencePlane } from '../core/record.ts';
import { createSweep, type Sweep } from '../core/sweep/sweep.ts';
import { wholeFile } from './problem.ts';

/** The header of our own sweep files. */
export const CANONICAL_HEADER = 'frequency_hz,resistance_ohm,reactance_ohm';

const COLUMN_NAMES = ['frequency', 'resistance', 'reactance'] as const;

/** Powers of ten that a double holds exactly. */
const EXACT_POWERS: Float64Array = Float64Array.from({ length: 23 }, (_, i) => Number(`1e${i}`));

/** So many digits always fit a double's integer range. */
const EXACT_DIGITS = 15;

const [LF, MINUS, POINT, ZERO, NINE, COMMA, E] = [10, 45, 46, 48, 57, 44, 101];

/** Whether a text claims to be one of our own sweep files. */
export function looksCanonical(text: string): boolean {
  return text.startsWith(`${CANONICAL_HEADER}\n`);
}

/**
 * Writes a sweep as our own file: the shortest digits that read back to the same double, LF line ends.
 * The reference and the plane are not in it: the journal keeps them.
 */
export function writeCanonical(sweep: Sweep): string {
  const { frequencyHz, resistanceOhm, reactanceOhm } = sweep;
  const lines: string[] = [CANONICAL_HEADER];
  for (let i = 0; i < frequencyHz.length; i++) {
    lines.push(`${frequencyHz[i]},${resistanceOhm[i]},${reactanceOhm[i]}`);
  }
  return `${lines.join('\n')}\n`;
}

/**
 * Reads one of our own sweep files strictly: this header, three decimal numbers a line as JavaScript writes them, LF
 * after each line, the last one included (else the last number may be cut short), rising frequencies.
 *
 * Numbers are read straight out of the text. Up to 15 digits and a power of ten up to 22 are both exact doubles, so
 * that one multiplication or division rounds correctly; the rest goes through Number.
 * Source: W. D. Clinger, "How to read floating point numbers accurately", PLDI 1990 (the fast path).
 *
 * @throws UserError `sweep-file-malformed` with line and column, or as {@link createSweep}
 */
export function readCanonical(
  text: string,
  settings: { referenceOhm?: number | undefined; plane?: ReferencePlane | undefined } = {},
): Sweep {
  if (!looksCanonical(text)) throw malformed(`needs the header "${CANONICAL_HEADER}"`, 1, 1);
  const points = countLines(text) - 1;
  const columns = [new Float64Array(points), new Float64Array(points), new Float64Array(points)] as const;
  let at = CANONICAL_HEADER.length + 1;
  for (let i = 0; i < points; i++) {
    const lineStart = at;
    for (let k = 0; k < 3; k++) {
      const start = at;
      let code = text.charCodeAt(at);
      const negative = code === MINUS;
      if (negative) code = text.charCodeAt(++at);
      let whole = 0;
      let digits = 0;
      const digitsFrom = at;
      for (; code >= ZERO && code <= NINE; code = text.charCodeAt(++at)) {
        whole = whole * 10 + (code - ZERO);
        digits++;
      }
      let good = at > digitsFrom;
      let decimals = 0;
      if (code === POINT) {
        const pointAt = at;
        code = text.charCodeAt(++at);
        for (; code >= ZERO && code <= NINE; code = text.charCodeAt(++at)) {
          whole = whole * 10 + (code - ZERO);
          digits++;
        }
        decimals = at - pointAt - 1;
        good &&= decimals > 0;
      }
      let value: number;
      if (code === E || digits > EXACT_DIGITS) {
        while (code !== COMMA && code !== LF && at < text.length) code = text.charCodeAt(++at);
        const written = text.slice(start, at);
        good &&= WRITTEN_NUMBER.test(written);
        value = Number(written);
      } else {
        const size = whole / (EXACT_POWERS[decimals] as number);
        value = negative ? -size : size;
      }
      if (!good || code !== (k < 2 ? COMMA : LF))
        throw wrongCell(text, start, i + 2, start - lineStart + 1, k);
      (columns[k] as Float64Array)[i] = value;
      at++;
    }
  }
  if (at !== text.length)
    throw malformed('needs a line end after the last row: the file is cut short', points + 2);
  const [frequencyHz, resistanceOhm, reactanceOhm] = columns;
  return createSweep({ frequencyHz, resistanceOhm, reactanceOhm, ...settings });
}

const WRITTEN_NUMBER = /^-?\d+(?:\.\d+)?(?:e[+-]?\d+)?$/u;

function countLines(text: string): number {
  let lines = 0;
  for (let at = text.indexOf('\n'); at >= 0; at = text.indexOf('\n', at + 1)) lines++;
  return lines;
}

function wrongCell(text: string, start: number, line: number, column: number, k: number): Error {
  const end = text.indexOf('\n', start);
  const rest = text.slice(start, end < 0 ? undefined : end).slice(0, 40);
  const name = COLUMN_NAMES[k] ?? 'cell';
  const then = k < 2 ? 'a comma' : 'a line end';
  return malformed(`${name} must be a plain number followed by ${then}, got "${rest}"`, line, column);
}

function malformed(message: string, line: number, column?: number): Error {
  return wholeFile('sweep-file-malformed', message, line, column);
}
