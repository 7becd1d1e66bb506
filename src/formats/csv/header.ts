import type { TextLine } from '../lines.ts';
import type { Delimiter } from '../read-options.ts';
import { type ColumnMeaning, columnMeaning, isUnitCell } from './header-words.ts';
import { splitCells } from './split-cells.ts';

/** The meaning of each column, null where the words are not understood. */
export type Header = readonly (ColumnMeaning | null)[];

export interface FoundHeader {
  readonly header: Header;
  readonly line: TextLine;
}

/** How far above the numbers a header is looked for. */
const LINES_LOOKED_AT = 30;

/** A longer line is no header. */
const MAX_HEADER_CHARACTERS = 2000;

/**
 * Finds the header of a table: the nearest line above its numbers that has as many names as there are columns and
 * names a frequency. It may stand in a comment, and its units in a line of their own below it.
 *
 * @param above - the lines above the first row of numbers
 */
export function findHeader(
  above: readonly TextLine[],
  columns: number,
  delimiter: Delimiter,
): FoundHeader | null {
  let units: string[] | null = null;
  for (let i = above.length - 1; i >= Math.max(0, above.length - LINES_LOOKED_AT); i--) {
    const line = above[i] as TextLine;
    if (line.text.length > MAX_HEADER_CHARACTERS) continue;
    for (const cells of waysToSplit(line.text, delimiter)) {
      if (cells.length !== columns) continue;
      if (units === null && cells.every(isUnitCell) && cells.some((cell) => cell.trim().length > 1)) {
        units = cells;
        continue;
      }
      const header = cells.map((cell, k) => columnMeaning(withUnit(cell, units?.[k])) ?? columnMeaning(cell));
      if (header.some((column) => column?.role === 'frequency')) return { header, line };
    }
  }
  return null;
}

/** The number of names in a header whose width is not that of the rows; null when there is no such line. */
export function widthOfMisfit(above: readonly TextLine[]): number | null {
  for (const line of above.slice(-LINES_LOOKED_AT).reverse()) {
    if (line.text.length > MAX_HEADER_CHARACTERS) continue;
    for (const delimiter of [';', '\t', ',', ' '] as const) {
      const meanings = splitCells(line.text, delimiter).map((cell) => columnMeaning(cell));
      const known = meanings.filter((meaning) => meaning !== null);
      if (known.length > 1 && known.some(({ role }) => role === 'frequency')) return meanings.length;
    }
  }
  return null;
}

function withUnit(cell: string, unit: string | undefined): string {
  const bare = (unit ?? '').replace(/[[\]()\s]/gu, '');
  return bare === '' || bare === '-' ? cell : `${cell} [${bare}]`;
}

/** A header may be spaced otherwise than its rows: every delimiter, then wide gaps, then any gap. */
function* waysToSplit(text: string, delimiter: Delimiter): Generator<string[]> {
  const plain = text.replace(/^[\s#!%]+/u, '');
  if (delimiter !== ' ') yield splitCells(plain, delimiter);
  yield plain.trim().split(/\t+| {2,}/u);
  for (const other of [';', '\t', ','] as const) if (other !== delimiter) yield splitCells(plain, other);
  yield splitCells(
    plain.replace(/\s+(?=[[(])|\s*\/\s*/gu, (gap) => (gap.includes('/') ? '/' : '')),
    ' ',
  );
}
