import type { ReferencePlane } from '../core/record.ts';
import { createSweep, type Sweep } from '../core/sweep/sweep.ts';
import { DecimalScanner } from './decimal-scanner.ts';
import { wholeFile } from './problem.ts';

/** The header of our own sweep files. */
export const CANONICAL_HEADER = 'frequency_hz,resistance_ohm,reactance_ohm';

const COLUMN_NAMES = ['frequency', 'resistance', 'reactance'] as const;

const [LF, PLUS, COMMA, POINT, E] = [10, 43, 44, 46, 101];

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
 * @throws UserError `sweep-file-malformed` with line and column, or as {@link createSweep}
 */
export function readCanonical(
  text: string,
  settings: { referenceOhm?: number | undefined; plane?: ReferencePlane | undefined } = {},
): Sweep {
  if (!looksCanonical(text)) throw malformed(`needs the header "${CANONICAL_HEADER}"`, 1, 1);
  const points = countLines(text) - 1;
  const columns = [new Float64Array(points), new Float64Array(points), new Float64Array(points)] as const;
  const scanner = new DecimalScanner();
  let at = CANONICAL_HEADER.length + 1;
  for (let i = 0; i < points; i++) {
    const lineStart = at;
    for (let k = 0; k < 3; k++) {
      let value = scanner.scan(text, at, POINT);
      let end = scanner.end;
      if (text.charCodeAt(end) === E) {
        while (end < text.length && text.charCodeAt(end) !== COMMA && text.charCodeAt(end) !== LF) end++;
        value = exponentNumber(text.slice(at, end));
      }
      const parted = text.charCodeAt(end) === (k < 2 ? COMMA : LF) && text.charCodeAt(at) !== PLUS;
      if (!parted || Number.isNaN(value)) throw wrongCell(text, at, i + 2, at - lineStart + 1, k);
      (columns[k] as Float64Array)[i] = value;
      at = end + 1;
    }
  }
  if (at !== text.length)
    throw malformed('needs a line end after the last row: the file is cut short', points + 2);
  const [frequencyHz, resistanceOhm, reactanceOhm] = columns;
  return createSweep({ frequencyHz, resistanceOhm, reactanceOhm, ...settings });
}

function exponentNumber(text: string): number {
  return /^-?\d+(?:\.\d+)?e[+-]?\d+$/u.test(text) ? Number(text) : Number.NaN;
}

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
