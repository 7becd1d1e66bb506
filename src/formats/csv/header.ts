import type { TextLine } from '../lines.ts';
import type { Delimiter } from '../read-options.ts';
import { type ColumnMeaning, columnMeaning, isUnitCell } from './header-words.ts';
import { fitsOver, type Layout } from './layout.ts';
import { filledCells, splitCells } from './split-cells.ts';

/** The meaning of each column, null where the words are not understood; a row has a cell for each. */
export type Header = readonly (ColumnMeaning | null)[];

/** The header of a table, and where it ends. */
export interface FoundHeader {
  readonly header: Header;
  /** Index of the first line below the header and its units. */
  readonly below: number;
}

/** A longer line is no header. */
const MAX_HEADER_CHARACTERS = 2000;

/**
 * Finds the header of a table: the nearest line above its numbers that has a name for each cell of the rows and
 * names a frequency. It may stand in a comment, and its units in a line of their own below it.
 *
 * @param above - the lines above the first row of numbers
 */
export function findHeader(above: readonly TextLine[], layout: Layout): FoundHeader | null {
  let units: { cells: string[]; below: number } | null = null;
  for (let i = above.length - 1; i >= 0; i--) {
    const line = above[i] as TextLine;
    if (line.text.length > MAX_HEADER_CHARACTERS) continue;
    for (const cells of waysToSplit(line.text, layout.delimiter)) {
      if (!fitsOver(cells, layout)) continue;
      if (units === null && cells.every(isUnitCell) && cells.some((cell) => cell.trim().length > 1)) {
        units = { cells, below: i + 1 };
        continue;
      }
      const columns = Math.max(filledCells(cells), layout.filled);
      const header = cells
        .slice(0, columns)
        .map((cell, k) => columnMeaning(withUnit(cell, units?.cells[k])) ?? columnMeaning(cell));
      if (header.some((column) => column?.role === 'frequency')) {
        return { header, below: units?.below ?? i + 1 };
      }
    }
  }
  return null;
}

/** The number of names in a header whose width is not that of the rows; null when there is no such line. */
export function widthOfMisfit(above: readonly TextLine[]): number | null {
  for (const line of above.toReversed()) {
    if (line.text.length > MAX_HEADER_CHARACTERS) continue;
    for (const delimiter of [';', '\t', ',', ' '] as const) {
      const cells = splitCells(line.text, delimiter);
      const known = cells.map((cell) => columnMeaning(cell)).filter((meaning) => meaning !== null);
      if (known.length > 1 && known.some(({ role }) => role === 'frequency')) return filledCells(cells);
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
    // A gap begins behind something else: so each is looked at once, however long it is.
    plain.replace(/(?<!\s)(?:\s+(?=[[(])|\s*\/\s*)/gu, (gap) => (gap.includes('/') ? '/' : '')),
    ' ',
  );
}
