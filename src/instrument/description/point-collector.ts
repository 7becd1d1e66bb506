import { polar } from '../../core/complex.ts';
import { createReflectionSweep } from '../../core/sweep/reflection-sweep.ts';
import { createScalarSweep, createSweep } from '../../core/sweep/sweep.ts';
import { UserError } from '../../core/user-error.ts';
import { readNumber } from '../../formats/number-text.ts';
import { type Grid, gridFrequenciesHz } from '../codec/grid.ts';
import type { RawSweep } from '../instrument.ts';
import { type Column, columnSet, toInside } from './column.ts';
import type { PointsForm } from './description.ts';

/** Why the collected points are no sweep; said of the instrument. */
export interface NoSweep {
  readonly problem: string;
}

/** SCPI-1999 writes infinity as 9.9E37 and not-a-number as 9.91E37 (memory). */
const NO_NUMBER = 9.9e37;

/** Collects the points of one sweep from rows of figures, as a description says they come. */
export class PointCollector {
  readonly #form: PointsForm;
  readonly #grid: Grid;
  readonly #rows: number[][] = [];
  readonly #frequencyColumn: number;
  readonly #seen = new Set<number>();

  constructor(form: PointsForm, grid: Grid) {
    this.#form = form;
    this.#grid = grid;
    this.#frequencyColumn = form.columns.findIndex(({ quantity }) => quantity === 'frequency');
  }

  get received(): number {
    return this.#rows.length;
  }

  get full(): boolean {
    return this.#rows.length >= this.#grid.points;
  }

  /**
   * Takes one line: a point, or all of them, as the layout says.
   * @returns false when it is not made of figures as described
   */
  take(line: string): boolean {
    const cells = line.split(this.#form.separator).map((cell) => cell.trim());
    const width = this.#form.columns.length;
    if (this.#form.separator.trim() === '')
      return this.#takeCells(
        cells.filter((cell) => cell !== ''),
        width,
      );
    return this.#takeCells(cells, width);
  }

  /** The sweep, or why there is none. */
  finish(referenceOhm: number): RawSweep | NoSweep {
    const { points } = this.#grid;
    if (this.#rows.length !== points) return { problem: `sent ${this.#rows.length} of ${points} points` };
    try {
      return this.#inOrder(referenceOhm);
    } catch (error) {
      // Figures that are no sweep, such as an SWR below one or a frequency twice, are the instrument's doing here.
      if (error instanceof UserError) return { problem: `sent figures that make no sweep: ${error.message}` };
      throw error;
    }
  }

  #inOrder(referenceOhm: number): RawSweep | NoSweep {
    const { points } = this.#grid;
    if (this.#frequencyColumn === -1) return this.#build(gridFrequenciesHz(this.#grid), referenceOhm);
    // Points may come in any order: the frequency tells where each belongs.
    this.#rows.sort((a, b) => (a[this.#frequencyColumn] as number) - (b[this.#frequencyColumn] as number));
    const frequencyHz = this.#column(this.#frequencyColumn);
    const stepHz = (this.#grid.stopHz - this.#grid.startHz) / (points - 1);
    const asked = gridFrequenciesHz(this.#grid);
    for (let i = 0; i < points; i++) {
      const [came, wanted] = [frequencyHz[i] as number, asked[i] as number];
      if (Math.abs(came - wanted) <= stepHz / 2) continue;
      return { problem: `sent a point at ${came} Hz where ${wanted} Hz was asked for` };
    }
    return this.#build(frequencyHz, referenceOhm);
  }

  #takeCells(cells: readonly string[], width: number): boolean {
    const single = this.#form.layout === 'line-each';
    if (cells.length === 0 || cells.length % width !== 0 || (single && cells.length !== width)) return false;
    const rows: number[][] = [];
    for (let start = 0; start < cells.length; start += width) {
      const row = this.#form.columns.map((column, i) => inside(column, cells[start + i] as string));
      if (row.some((value) => Number.isNaN(value))) return false;
      rows.push(row);
    }
    for (const row of rows) this.#keep(row);
    return true;
  }

  /** A point that comes twice with the same figures counts once. */
  #keep(row: number[]): void {
    const frequencyHz = row[this.#frequencyColumn];
    if (frequencyHz !== undefined && this.#seen.has(frequencyHz)) {
      const same = this.#rows.some((known) => known.every((value, i) => value === row[i]));
      if (same) return;
    }
    if (frequencyHz !== undefined) this.#seen.add(frequencyHz);
    this.#rows.push(row);
  }

  #column(index: number): Float64Array {
    return Float64Array.from(this.#rows, (row) => row[index] as number);
  }

  #build(frequencyHz: Float64Array, referenceOhm: number): RawSweep {
    const set = columnSet(this.#form.columns) as readonly Column['quantity'][];
    const [first, second] = set.map((quantity) =>
      this.#column(this.#form.columns.findIndex((column) => column.quantity === quantity)),
    ) as [Float64Array, Float64Array];
    switch (set[0]) {
      case 'swr':
        return createScalarSweep({ frequencyHz, swr: first, referenceOhm });
      case 'resistance':
        return createSweep({ frequencyHz, resistanceOhm: first, reactanceOhm: second, referenceOhm });
      case 'impedance-magnitude': {
        const [resistanceOhm, reactanceOhm] = fromPolar(first, second);
        return createSweep({ frequencyHz, resistanceOhm, reactanceOhm, referenceOhm });
      }
      case 'reflection-real':
        return createReflectionSweep({
          frequencyHz,
          reflectionRe: first,
          reflectionIm: second,
          referenceOhm,
        });
      default: {
        const [reflectionRe, reflectionIm] = fromPolar(first, second);
        return createReflectionSweep({ frequencyHz, reflectionRe, reflectionIm, referenceOhm });
      }
    }
  }
}

/** A cell in the units of the program; NaN for what is no figure. An ignored column may hold anything. */
function inside(column: Column, cell: string): number {
  if (column.quantity === 'ignore') return 0;
  const value = readNumber(cell);
  return Math.abs(value) < NO_NUMBER ? toInside(column, value) : Number.NaN;
}

function fromPolar(size: Float64Array, angle: Float64Array): [Float64Array, Float64Array] {
  const points = Array.from(size, (value, i) => polar(value, angle[i] as number));
  return [Float64Array.from(points, ({ re }) => re), Float64Array.from(points, ({ im }) => im)];
}
