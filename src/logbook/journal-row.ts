import { createHash } from 'node:crypto';
import { parse } from 'csv-parse/sync';
import { stringify } from 'csv-stringify/sync';

/** The columns of `journal.csv`, in their order. What does not belong to an event is an empty cell. */
export const COLUMNS = [
  'sequence',
  'part',
  'time',
  'recorded',
  'event',
  'subject',
  'value',
  'unit',
  'bearing_deg',
  'route',
  'power_w',
  'visit',
  'shot',
  'target',
  'plane',
  'from_hz',
  'to_hz',
  'reference_ohm',
  'file',
  'sha256',
  'source',
  'text',
  'check',
] as const;

type Column = (typeof COLUMNS)[number];
/** The cells of one row, by column. */
export type Cells = Readonly<Record<Column, string>>;

/** The first line of every journal. */
export const HEADER: string = `${COLUMNS.join(',')}\r\n`;

/** The check of the row before the first one. */
export const FIRST_CHECK = '';

/** One row as RFC 4180 text with its line end. A cell never holds a line break, so a row is always one line. */
export function rowText(cells: Cells): string {
  return stringify([COLUMNS.map((column) => cells[column])], { record_delimiter: '\r\n' });
}

/** The cells of one line, whatever their number; none where the line breaks the grammar. */
export function cellsOf(line: string, delimiter: string): readonly string[] {
  // Most rows hold no quote, and then the delimiter alone rules: several times faster than the grammar.
  if (!line.includes('"')) return line.split(delimiter);
  try {
    return parse(line, { delimiter, relax_column_count: true })[0] ?? [];
  } catch {
    return [];
  }
}

/**
 * The check of a row: the first 16 hexadecimal digits of SHA-256 over the JSON array of the check before it
 * and its own other cells. Each row so vouches for its place after the one before: a row changed, removed,
 * added or swapped by hand shows. It is no seal against a forger, who can compute it too.
 */
export function checkOf(previousCheck: string, cells: Omit<Cells, 'check'>): string {
  const vouched = [previousCheck];
  for (const column of COLUMNS) if (column !== 'check') vouched.push(cells[column]);
  return createHash('sha256').update(JSON.stringify(vouched)).digest('hex').slice(0, 16);
}

/** How a text begins that a spreadsheet takes for a formula, or that {@link textToCell} would have made of another. */
const FORMULA = /^[=+\-@\t'|%＝＋－＠]/u;

/**
 * Free text as a cell: line breaks and backslashes are escaped, and what a spreadsheet would take for a formula gets an
 * apostrophe in front; or a backslash, where one that parts cells by semicolons or tabs would see its beginning.
 * {@link cellToText} gives the same text back.
 */
export function textToCell(text: string): string {
  // Half a surrogate pair cannot be written as UTF-8: the round trip makes it the replacement character.
  const writable = Buffer.from(text).toString();
  const oneLine = writable.replaceAll('\\', '\\\\').replaceAll('\n', '\\n').replaceAll('\r', '\\r');
  const parted = oneLine.replaceAll(/([;\t])(?=[=+\-@|%])/gu, '$1\\');
  return withoutFormula(parted);
}

/** A line that no spreadsheet takes for a formula: one that could be gets an apostrophe in front. */
export function withoutFormula(line: string): string {
  return FORMULA.test(line) ? `'${line}` : line;
}

/** The text behind a cell that {@link textToCell} wrote. */
export function cellToText(cell: string): string {
  const written: Record<string, string> = { n: '\n', r: '\r' };
  return cell.replace(/^'/u, '').replaceAll(/\\(.)/gu, (_, letter: string) => written[letter] ?? letter);
}
