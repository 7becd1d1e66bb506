/** A table that the grammar cannot cut, with the line in which it gave up. */
export class CsvError extends Error {
  readonly code = 'CSV_QUOTE_NOT_CLOSED';
  readonly lines: number;

  constructor(lines: number) {
    super(`the parsing is finished with an opening quote at line ${lines}`);
    this.lines = lines;
  }
}

interface CsvOptions {
  readonly delimiter: string;
  readonly record_delimiter: string | readonly string[];
  /** Rows come as `{ record, info: { lines } }`, with the line in which each ends. */
  readonly info?: boolean;
}

/**
 * Cuts a table with quoted cells: RFC 4180, and as forgiving as the commands are. A quote that opens no cell, or that
 * closes one and is followed by more, belongs to the cell; rows may differ in length; empty lines give none.
 *
 * @throws CsvError where a quote is never closed
 */
export function parse(text: string, options: CsvOptions): unknown[] {
  const { delimiter, record_delimiter, info = false } = options;
  const ends = [record_delimiter].flat();
  const endAt = (place: number): number => ends.find((end) => text.startsWith(end, place))?.length ?? 0;
  const rows: unknown[] = [];
  let row: string[] = [];
  let cell = '';
  let line = 1;
  let isQuoted = false;
  let wasQuoted = false;
  const endCell = (): void => {
    row.push(cell);
    cell = '';
    wasQuoted = false;
  };
  const endRow = (): void => {
    if (row.length === 0 && cell === '' && !wasQuoted) return;
    endCell();
    rows.push(info ? { record: row, info: { lines: line } } : row);
    row = [];
  };
  for (let i = 0; i < text.length; i++) {
    const character = text[i] as string;
    if (isQuoted) {
      if (character !== '"') {
        cell += character;
        if (character === '\n' || (character === '\r' && text[i + 1] !== '\n')) line++;
      } else if (text[i + 1] === '"') cell += text[i++];
      else {
        isQuoted = false;
        wasQuoted = true;
        const isClosed = i + 1 === text.length || text[i + 1] === delimiter || endAt(i + 1) > 0;
        if (!isClosed) cell = `"${cell}"`;
      }
    } else if (character === '"' && cell === '') isQuoted = true;
    else if (character === delimiter) endCell();
    else if (endAt(i) > 0) {
      endRow();
      line++;
      i += endAt(i) - 1;
    } else cell += character;
  }
  if (isQuoted) throw new CsvError(/[\r\n]$/u.test(text) ? line - 1 : line);
  endRow();
  return rows;
}
