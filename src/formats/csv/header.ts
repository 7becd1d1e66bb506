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
  // A line of units alone may be the header: "MHz ohm ohm" does not say which is which, "MHz" says the frequency.
  return null;
}

/** The number of names in a header whose width is not that of the rows; null when there is no such line. */
export function widthOfMisfit(above: readonly TextLine[], delimiter: Delimiter): number | null {
  for (const line of above.slice(-LINES_LOOKED_AT).reverse()) {
    const cells = splitCells(line.text, delimiter);
    const roles = cells.map((cell) => columnMeaning(cell)?.role);
    if (roles.includes('frequency') && roles.filter((role) => role !== undefined).length > 1)
      return cells.length;
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
