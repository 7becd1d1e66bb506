import { CsvError, type Options, parse } from 'csv-parse/sync';
import { type TextLine, textLines } from '../lines.ts';
import { wholeFile } from '../problem.ts';
import type { Delimiter } from '../read-options.ts';
import { cellColumn, splitBlanks } from './split-cells.ts';

/** The rows of a table as text, and where they stand. */
export interface Rows {
  readonly cells: readonly (readonly string[])[];
  lineOf(row: number): number;
  /** Column of a cell in its line, counted in characters from 1. */
  columnOf(row: number, cell: number): number;
}

/**
 * Cuts the body of a table into rows, once. Blank lines and comment lines give none.
 *
 * @param text - the whole file
 * @param first - the line of the first row of numbers
 * @throws UserError `quotes-broken`
 */
export function readRows(text: string, first: TextLine, delimiter: Delimiter): Rows {
  const body = withoutComments(text.slice(first.offset));
  return delimiter !== ' ' && body.includes('"')
    ? quotedRows(body, first.number, delimiter)
    : plainRows(body, first.number, delimiter);
}

/** Without a quote the delimiter alone rules, as in most tables: several times faster than the grammar. */
function plainRows(body: string, firstLine: number, delimiter: Delimiter): Rows {
  const lines = [...textLines(body)].filter(({ text }) => (delimiter === ' ' ? text.trim() : text) !== '');
  const lineAt = (row: number) => lines[row] ?? { number: 1, text: '' };
  return {
    cells: lines.map(({ text }) => (delimiter === ' ' ? splitBlanks(text) : text.split(delimiter))),
    lineOf: (row) => firstLine + lineAt(row).number - 1,
    columnOf: (row, cell) => cellColumn(lineAt(row).text, delimiter, cell),
  };
}

/** Line numbers are worked out only when one is asked for: csv-parse counts them at half its speed. */
function quotedRows(body: string, firstLine: number, delimiter: Delimiter): Rows {
  const options: Options = {
    delimiter,
    record_delimiter: body.includes('\r') ? ['\r\n', '\n', '\r'] : '\n',
    relax_column_count: true,
    skip_empty_lines: true,
    relax_quotes: true,
  };
  try {
    const cells = parse(body, options) as string[][];
    const endLines = once(() =>
      (parse(body, { ...options, info: true }) as unknown as { info: { lines: number } }[]).map(
        (record) => record.info.lines,
      ),
    );
    const lineTexts = once(() => [...textLines(body)].map((line) => line.text));
    const lineOf = (row: number): number => firstLine + (endLines()[row] ?? 1) - 1;
    const columnOf = (row: number, cell: number): number =>
      cellColumn(lineTexts()[lineOf(row) - firstLine] ?? '', delimiter, cell);
    return { cells, lineOf, columnOf };
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    const line = typeof error['lines'] === 'number' ? firstLine + error['lines'] - 1 : null;
    throw wholeFile('quotes-broken', `needs quotes that open and close around a cell (${error.code})`, line);
  }
}

/** Comment lines emptied, so that the numbers of the other lines stay and a quote in a comment breaks nothing. */
function withoutComments(body: string): string {
  const some = ['#', '!', '%'].some((sign) => body.includes(sign));
  return some ? body.replace(/^[ \t]*[#!%].*$/gmu, '') : body;
}

function once<T>(make: () => T): () => T {
  let made: { value: T } | null = null;
  return () => {
    made ??= { value: make() };
    return made.value;
  };
}
