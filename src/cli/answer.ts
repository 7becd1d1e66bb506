import type { Io } from './io.ts';
import { asCalled } from './pasteable.ts';
import { oneLine, plainJson, plainText } from './plain-text.ts';

/** What a command found: one JSON document for programs, or a sentence and tables for people. */
export interface Answer {
  readonly json: unknown;
  readonly text: string;
}

/** Prints an answer in the form that was asked for. */
export function printAnswer(io: Io, answer: Answer, asJson: boolean): void {
  io.out(asJson ? plainJson(answer.json, 2) : asCalled(io, plainText(answer.text)));
}

/** A number with a fixed count of decimals, or `-` for what cannot be had. */
export function figure(value: number | null | undefined, decimals: number): string {
  if (value === null || value === undefined || !Number.isFinite(value)) return '-';
  const text = value.toFixed(decimals);
  return Number(text) === 0 ? text.replace('-', '') : text;
}

/**
 * An aligned table: the first row is the header. Numbers, bare or with a short unit, are aligned to the right.
 */
export function table(given: readonly (readonly string[])[]): string {
  const rows = given.map((row) => row.map(oneLine));
  const widths: number[] = [];
  for (const row of rows) {
    row.forEach((cell, i) => {
      widths[i] = Math.max(widths[i] ?? 0, cell.length);
    });
  }
  return rows
    .map((row) =>
      row
        .map((cell, i) =>
          isFigure(cell) || (row === rows[0] && columnOfFigures(rows, i))
            ? cell.padStart(widths[i] ?? 0)
            : cell.padEnd(widths[i] ?? 0),
        )
        .join('  ')
        .trimEnd(),
    )
    .join('\n');
}

function isFigure(cell: string): boolean {
  return /^([≥≤] )?[-+±]?[\d.]+\S*( \S{1,4})?$|^-$/u.test(cell);
}

function columnOfFigures(rows: readonly (readonly string[])[], column: number): boolean {
  return rows.slice(1).every((row) => isFigure(row[column] ?? '-'));
}
