import type { TextLine } from '../lines.ts';
import type { DecimalMark, Delimiter, ReadOptions } from '../read-options.ts';
import { cellNumber, hasEitherComma, saysNoValue } from './cell.ts';
import { filledCells, splitCells } from './split-cells.ts';

/** How the numbers of a table are set: what stands between cells, which mark is the decimal one, where they begin. */
export interface Layout {
  readonly delimiter: Delimiter;
  readonly decimal: DecimalMark;
  /** Cells of most rows, with empty ones behind trailing delimiters. */
  readonly cells: number;
  /** How many of them are filled in most rows: what is behind these carries nothing, or has a name. */
  readonly filled: number;
  /** Index of the first row of numbers in the lines that were looked at. */
  readonly firstRow: number;
  /** True where every comma of the rows looked at could as well stand between thousands (`7,100`). */
  readonly thousandsPossible: boolean;
}

/** In this order where two readings give the same cells. */
const DELIMITERS: readonly Delimiter[] = [';', '\t', ',', ' '];

/** Rows that decide; more would not change the answer. */
const ROWS_LOOKED_AT = 50;

/** The most that a row with some text among its numbers counts against one of numbers alone. */
const MIXED_ROW_WEIGHT = 0.5;

/** A line that is a comment as a whole. */
const COMMENT: RegExp = /^[ \t]*[#!%]/u;

interface Candidate extends Layout {
  readonly score: number;
  /** The numbers of the first rows, to tell whether two readings differ. */
  readonly reading: string;
}

/**
 * Finds the layout of a table by trying every delimiter under both decimal marks and counting rows of numbers of one
 * width. csv-parse's own detection fails on decimal commas and on any Ω in the header.
 *
 * @param lines - the beginning of the file
 * @returns the layout, two layouts that read different numbers equally well, or null for no table
 */
export function findLayout(
  lines: readonly TextLine[],
  options: Pick<ReadOptions, 'delimiter' | 'decimal'>,
): Layout | readonly [Layout, Layout] | null {
  const hint = delimiterHint(lines);
  const delimiters =
    options.delimiter !== undefined ? [options.delimiter] : hint !== null ? [hint] : DELIMITERS;
  const decimals: readonly DecimalMark[] =
    options.decimal === undefined ? ['point', 'comma'] : [options.decimal];
  const candidates = delimiters
    .flatMap((delimiter) => decimals.map((decimal) => tryLayout(lines, delimiter, decimal)))
    .filter((candidate) => candidate !== null);
  const best = Math.max(...candidates.map((candidate) => candidate.score));
  const [first, ...rivals] = candidates.filter((candidate) => candidate.score === best);
  if (first === undefined) return null;
  const rival = rivals.find((candidate) => candidate.reading !== first.reading);
  return rival === undefined ? first : [first, rival];
}

/** Whether a line of other cells, such as a header, can stand over the rows: delimiters at its end may be more or fewer. */
export function fitsOver(cells: readonly string[], layout: Layout): boolean {
  return cells.length >= layout.filled && filledCells(cells) <= layout.cells;
}

/** The delimiter of a spreadsheet's first line `sep=;`, or null. */
function delimiterHint(lines: readonly TextLine[]): Delimiter | null {
  const found = /^"?sep=(.)"?$/iu.exec(lines[0]?.text.trimEnd() ?? '')?.[1];
  return DELIMITERS.find((delimiter) => delimiter === found) ?? null;
}

function tryLayout(lines: readonly TextLine[], delimiter: Delimiter, decimal: DecimalMark): Candidate | null {
  const rows: { index: number; width: number; weight: number; cells: string[] }[] = [];
  for (let index = 0; index < lines.length && rows.length < ROWS_LOOKED_AT; index++) {
    const { text } = lines[index] as TextLine;
    if (COMMENT.test(text)) continue;
    const cells = splitCells(text, delimiter);
    const doubt = delimiter === ',' && cells.some((cell) => /[;\t]/u.test(cell)) ? 0.5 : 1;
    const weight = doubt * weightOf(cells, decimal === 'comma');
    if (weight > 0) rows.push({ index, width: cells.length, weight, cells });
  }
  const width = mostCommon(rows.map((row) => row.width));
  const ofWidth = rows.filter((row) => row.width === width);
  const pure = ofWidth.filter((row) => row.weight === 1);
  // Where most rows are numbers alone, a line such as "Span,7,7.2" above them is none of them.
  const good = 2 * pure.length > ofWidth.length ? pure : ofWidth;
  if (width === null || good[0] === undefined) return null;
  const filled = mostCommon(good.map((row) => filledCells(row.cells))) as number;
  const commas = good.flatMap((row) => row.cells).filter((cell) => cell.includes(','));
  return {
    delimiter,
    decimal,
    cells: width,
    filled,
    firstRow: good[0].index,
    thousandsPossible: decimal === 'comma' && commas.length > 0 && commas.every(hasEitherComma),
    score: good.reduce((sum, row) => sum + row.weight, 0),
    reading: good
      .map((row) =>
        row.cells
          .slice(0, filled)
          .map((cell) => cellNumber(cell, decimal === 'comma'))
          .join(' '),
      )
      .join('\n'),
  };
}

/** 1 for a row of numbers and gaps with at least two numbers, less with some text among them, 0 for none. */
function weightOf(cells: readonly string[], decimalComma: boolean): number {
  let numbers = 0;
  let texts = 0;
  for (const cell of cells) {
    if (!Number.isNaN(cellNumber(cell, decimalComma))) numbers++;
    else if (!saysNoValue(cell)) texts++;
  }
  if (numbers < 2 || texts > numbers) return 0;
  return texts === 0 ? 1 : (MIXED_ROW_WEIGHT * numbers) / (numbers + texts);
}

function mostCommon(values: readonly number[]): number | null {
  const counts = new Map<number, number>();
  let best: number | null = null;
  for (const value of values) {
    const count = (counts.get(value) ?? 0) + 1;
    counts.set(value, count);
    if (best === null || count > (counts.get(best) as number)) best = value;
  }
  return best;
}
