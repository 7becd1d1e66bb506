import type { AnySweep } from '../../core/sweep/sweep.ts';
import { UserError } from '../../core/user-error.ts';
import { assembleSweeps } from '../assemble.ts';
import { type TextLine, textLines } from '../lines.ts';
import { OpenReading, type ProblemList, wholeFile } from '../problem.ts';
import type { ReadOptions } from '../read-options.ts';
import { cellNumber } from './cell.ts';
import { chooseColumns } from './column-choice.ts';
import { checkCommas, chooseFrequencyUnit } from './frequency-reading.ts';
import { type FoundHeader, findHeader, type Header, widthOfMisfit } from './header.ts';
import { columnMeaning } from './header-words.ts';
import { fitsOver, type Layout } from './layout.ts';
import { readRawPoints } from './raw-points.ts';
import { readRows } from './rows.ts';
import { settledLayout } from './settled-layout.ts';
import { splitCells } from './split-cells.ts';
import { toPoints } from './to-points.ts';

/** The rows of numbers must begin within this many lines. */
const HEAD_LINES = 500;

/**
 * Reads a table of numbers of any sane layout. What is wrong with single rows is collected; what leaves the whole
 * table open is thrown.
 *
 * @returns the sweeps, rising in frequency
 * @throws UserError where the table cannot be read or could be read in two ways (the message names both and the flag
 * that chooses), and `columns-unknown` for a wrong `columns` option
 */
export function readCsv(text: string, options: ReadOptions, problems: ProblemList): AnySweep[] {
  const stated = options.columns === undefined ? null : statedHeader(options.columns);
  const head = headOf(text);
  const layout = settledLayout(head, options);
  const { header, below } =
    stated === null ? headerOf(head, layout) : { header: stated, below: firstRowUnder(stated, head, layout) };
  const firstLine = head[below] as TextLine;
  if (header.length < layout.filled || header.length > layout.cells) {
    throw wholeFile(
      'columns-count',
      `--columns names ${header.length} columns, the rows have ${layout.filled} cells (skip one with -)`,
      firstLine.number,
    );
  }
  const choice = chooseColumns(header, firstLine.number);
  const rows = readRows(text, firstLine, layout.delimiter);
  const raw = readRawPoints(rows, layout, header, choice, problems);
  if (raw.frequency.length === 0) throw wholeFile('data-none', 'no row holds a point', firstLine.number);
  const unit = chooseFrequencyUnit(header[choice.frequency]?.unit ?? null, raw.frequency, options, problems);
  if (layout.thousandsPossible && options.decimal === undefined) checkCommas(rows, raw, unit, choice);
  return assembleSweeps(toPoints(raw, { header, choice, unit, rows, options }, problems), problems);
}

function headOf(text: string): TextLine[] {
  const lines: TextLine[] = [];
  for (const line of textLines(text)) {
    lines.push(line);
    if (lines.length === HEAD_LINES) break;
  }
  return lines;
}

function headerOf(head: readonly TextLine[], layout: Layout): FoundHeader {
  const above = head.slice(0, layout.firstRow);
  const header = findHeader(above, layout);
  if (header !== null) return header;
  const line = head[layout.firstRow]?.number;
  const names = widthOfMisfit(above);
  if (names === null) {
    const rest = ',-'.repeat(Math.max(0, layout.filled - 3));
    throw new OpenReading(
      'header-none',
      `no line above the numbers says what the ${layout.filled} columns are`,
      [{ columns: layout.filled > 2 ? `MHz,R,X${rest}` : 'MHz,SWR' }],
      { line, examples: true },
    );
  }
  const commas =
    layout.delimiter === ',' && names < layout.filled
      ? ': decimal commas cannot be told from commas between cells, use another delimiter'
      : '';
  throw wholeFile(
    'header-misfit',
    `the header names ${names} columns, the rows have ${layout.filled} cells${commas}`,
    line,
  );
}

/** The first row where only the user says what the columns are: upwards as long as there is a frequency in its place. */
function firstRowUnder(header: Header, head: readonly TextLine[], layout: Layout): number {
  const frequency = header.findIndex((column) => column?.role === 'frequency');
  let first = layout.firstRow;
  for (; first > 0; first--) {
    const cells = splitCells((head[first - 1] as TextLine).text, layout.delimiter);
    const value = cellNumber(cells[frequency] ?? '', layout.decimal === 'comma');
    if (!fitsOver(cells, layout) || Number.isNaN(value)) break;
  }
  return first;
}

/** `MHz,R,X`: the words of a header; `-` or nothing skips a column. */
function statedHeader(columns: string): Header {
  return columns.split(',').map((words) => {
    if (/^\s*-?\s*$/u.test(words)) return null;
    const meaning = columnMeaning(words);
    if (meaning !== null) return meaning;
    throw new UserError(
      'columns-unknown',
      `"${words.trim()}" is not understood as a column: use words such as MHz, R, X, |Z|, phase, S11 re, S11 im, S11 dB, return loss, SWR, or - to skip one`,
      { kind: 'command-line', place: { field: '--columns' } },
    );
  });
}
