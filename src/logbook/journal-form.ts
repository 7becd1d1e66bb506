import { type Cells, COLUMNS, cellsOf } from './journal-row.ts';

/** What a spreadsheet or an editor does to the form of a journal when it saves it, as one sees it, and what undoes it. */
export const FORM_CHANGES = {
  'line-ends-changed': { seen: 'line ends were changed', undo: 'with CRLF line ends' },
  'byte-order-mark-added': {
    seen: 'a byte order mark was put in front',
    undo: 'as UTF-8 without a byte order mark',
  },
  'delimiter-changed': {
    seen: 'the commas between the cells were changed',
    undo: 'with commas between the cells',
  },
  'empty-cells-added': { seen: 'empty cells were added to the rows', undo: 'without the empty cells' },
} as const;

/** The name of a change of form. */
export type FormChange = keyof typeof FORM_CHANGES;

/** A line as a row of the journal, and what was changed of its form alone. */
export interface FormedRow {
  /** Null when it is no row. */
  readonly cells: Cells | null;
  readonly changes: readonly FormChange[];
}

/** Reads a line as it was written, or as a spreadsheet may have written the same cells. */
export function formedRow(line: string): FormedRow {
  for (const delimiter of [',', ';', '\t']) {
    const cells = cellsOf(line, delimiter);
    if (cells.length < COLUMNS.length) continue;
    const surplus = cells.slice(COLUMNS.length);
    if (surplus.some((cell) => cell !== '')) continue;
    const changes: FormChange[] = [];
    if (delimiter !== ',') changes.push('delimiter-changed');
    if (surplus.length > 0) changes.push('empty-cells-added');
    return { cells: Object.fromEntries(COLUMNS.map((column, i) => [column, cells[i]])) as Cells, changes };
  }
  return { cells: null, changes: [] };
}

/** Whether nothing but empty cells stands on a line. */
export function isEmptyRow(line: string): boolean {
  return /^[,;\t]*$/u.test(line);
}
