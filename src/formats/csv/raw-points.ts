import { quoted } from '../../core/quoted.ts';
import { readNumber } from '../number-text.ts';
import type { ProblemList } from '../problem.ts';
import { cellNumber, hasThousands, saysNoValue, THOUSANDS } from './cell.ts';
import type { ColumnChoice } from './column-choice.ts';
import type { Header } from './header.ts';
import { columnMeaning } from './header-words.ts';
import type { Layout } from './layout.ts';
import type { Rows } from './rows.ts';
import { filledCells } from './split-cells.ts';

/** The chosen columns as numbers, in the units of the file. */
export interface RawPoints {
  readonly frequency: Float64Array;
  readonly first: Float64Array;
  /** Unused (zero) where only one value column is read. */
  readonly second: Float64Array;
  /** Row of each point. */
  readonly row: Int32Array;
  /** Points before which the file repeats its header or begins a new block. */
  readonly breaks: readonly number[];
}

/**
 * Turns the cells of the chosen columns into numbers. A cell that says "no value" leaves its point out (a scalar value
 * becomes NaN) and is noted; a cell that says anything else is refused, with its row.
 */
export function readRawPoints(
  rows: Rows,
  layout: Layout,
  header: Header,
  choice: ColumnChoice,
  problems: ProblemList,
): RawPoints {
  const { cells } = rows;
  const n = cells.length;
  const frequency = new Float64Array(n);
  const first = new Float64Array(n);
  const second = new Float64Array(n);
  const row = new Int32Array(n);
  const careful = new CarefulRows(rows, layout, header, choice, problems);
  const comma = layout.decimal === 'comma';
  const hasSecond = choice.second >= 0;
  let count = 0;
  for (let i = 0; i < n; i++) {
    const line = cells[i] as readonly string[];
    let f = readNumber(line[choice.frequency] ?? '', comma);
    let a = readNumber(line[choice.first] ?? '', comma);
    let b = hasSecond ? readNumber(line[choice.second] ?? '', comma) : 0;
    if (!fits(line, header.length) || Number.isNaN(f + a + b) || f < 0) {
      const read = careful.read(i, count);
      if (read === null) continue;
      [f, a, b] = read;
    }
    frequency[count] = f;
    first[count] = a;
    second[count] = b;
    row[count] = i;
    count++;
  }
  return {
    frequency: frequency.subarray(0, count),
    first: first.subarray(0, count),
    second: second.subarray(0, count),
    row: row.subarray(0, count),
    breaks: careful.breaks,
  };
}

/** Whether a row has a cell for each column, and nothing behind them. */
function fits(row: readonly string[], columns: number): boolean {
  return row.length === columns || (row.length > columns && filledCells(row) <= columns);
}

/** The few rows that are not plain numbers. */
class CarefulRows {
  /** Points before which the file begins again. */
  readonly breaks: number[] = [];
  readonly #rows: Rows;
  readonly #layout: Layout;
  readonly #header: Header;
  readonly #choice: ColumnChoice;
  readonly #problems: ProblemList;

  constructor(rows: Rows, layout: Layout, header: Header, choice: ColumnChoice, problems: ProblemList) {
    this.#rows = rows;
    this.#layout = layout;
    this.#header = header;
    this.#choice = choice;
    this.#problems = problems;
  }

  /** @returns the three numbers, or null when the row gives no point */
  read(row: number, pointsSoFar: number): [number, number, number] | null {
    const cells = this.#rows.cells[row] as readonly string[];
    const columns = this.#header.length;
    if (cells.every((cell) => this.#number(cell) === null)) {
      this.#takeText(row, cells, pointsSoFar);
      return null;
    }
    if (!fits(cells, columns)) {
      const got = Math.max(filledCells(cells), Math.min(cells.length, columns));
      this.#problems.refuse(
        'row-width',
        `needs ${columns} cells like the other rows, got ${got}`,
        this.#rows.lineOf(row),
        this.#rows.columnOf(row, Math.min(got, columns)),
      );
      return null;
    }
    const { kind, frequency, first, second } = this.#choice;
    const f = this.#value(row, cells, frequency, false);
    const a = this.#value(row, cells, first, kind === 'scalar');
    const b = second < 0 ? 0 : this.#value(row, cells, second, kind === 'scalar');
    if (f !== null && f < 0) {
      this.#problems.refuse(
        'frequency-negative',
        `a frequency must be 0 or more, got ${f}`,
        this.#rows.lineOf(row),
      );
      return null;
    }
    return f === null || a === null || b === null ? null : [f, a, b];
  }

  /** A row without any number: a repeated header or a wrapper starts anew, gaps alone are noted, other text too. */
  #takeText(row: number, cells: readonly string[], pointsSoFar: number): void {
    const text = cells.join(' ').trim();
    const line = this.#rows.lineOf(row);
    const meanings = cells.slice(0, this.#header.length).map((cell) => columnMeaning(cell));
    if (cells.every(saysNoValue)) {
      this.#problems.note('row-empty', `a row without a number is left out: ${quoted(text)}`, line);
    } else if (meanings.some((meaning) => meaning?.role === 'frequency')) {
      if (this.#sameHeader(meanings)) this.breaks.push(pointsSoFar);
      else
        this.#problems.refuse('header-changes', `a second header names other columns: ${quoted(text)}`, line);
    } else if (/^begin\b/iu.test(text)) this.breaks.push(pointsSoFar);
    else if (!/^end\b/iu.test(text))
      this.#problems.note('text-skipped', `text between the rows is not read: ${quoted(text)}`, line);
  }

  #sameHeader(meanings: Header): boolean {
    return meanings.every(
      (meaning, k) => meaning?.role === this.#header[k]?.role && meaning?.unit === this.#header[k]?.unit,
    );
  }

  /** @returns NaN for a gap where one is allowed, null (reported) when the point is lost */
  #value(row: number, cells: readonly string[], column: number, gapAllowed: boolean): number | null {
    const cell = cells[column] as string;
    const value = this.#number(cell);
    if (value !== null) return value;
    const what = this.#header[column]?.role ?? 'value';
    const [line, at] = [this.#rows.lineOf(row), this.#rows.columnOf(row, column)];
    if (saysNoValue(cell)) {
      const effect = gapAllowed ? 'the point has no value' : 'the point is left out';
      this.#problems.note('value-missing', `no ${what} (${quoted(cell)}): ${effect}`, line, at);
      return gapAllowed ? Number.NaN : null;
    }
    const hint = hasThousands(cell) ? `: ${THOUSANDS}` : '';
    this.#problems.refuse('number-wrong', `${what} must be a number, got ${quoted(cell)}${hint}`, line, at);
    return null;
  }

  #number(cell: string): number | null {
    const value = cellNumber(cell, this.#layout.decimal === 'comma');
    return Number.isNaN(value) ? null : value;
  }
}
