import type { Delimiter } from '../read-options.ts';

/**
 * Cells of one line, for looking at it. Whole tables go through csv-parse, except for runs of blanks, which it does not
 * know.
 */
export function splitCells(line: string, delimiter: Delimiter): string[] {
  return delimiter === ' ' ? splitBlanks(line) : splitQuoted(line, delimiter);
}

/** How many cells a row has up to its last one that is not empty: empty cells at the end carry nothing. */
export function filledCells(cells: readonly string[]): number {
  return cells.findLastIndex((cell) => cell.trim() !== '') + 1;
}

/** Column (characters, from 1) at which a cell of a line begins. */
export function cellColumn(line: string, delimiter: Delimiter, index: number): number {
  if (delimiter === ' ') {
    const words = [...line.matchAll(/[^ \t]+/gu)];
    return (words[index]?.index ?? line.length) + 1;
  }
  let quoted = false;
  let passed = 0;
  for (let i = 0; i < line.length && passed <= index; i++) {
    if (passed === index) return i + 1;
    if (line[i] === '"') quoted = !quoted;
    else if (line[i] === delimiter && !quoted) passed++;
  }
  return line.length + 1;
}

/** Words between runs of blanks and tabs. */
export function splitBlanks(line: string): string[] {
  const trimmed = line.trim();
  return trimmed === '' ? [] : trimmed.split(/[ \t]+/u);
}

function splitQuoted(line: string, delimiter: Delimiter): string[] {
  if (!line.includes('"')) return line.split(delimiter);
  const cells: string[] = [];
  let cell = '';
  let quoted = false;
  for (const character of line) {
    if (character === '"') quoted = !quoted;
    else if (character === delimiter && !quoted) {
      cells.push(cell);
      cell = '';
    } else cell += character;
  }
  cells.push(cell);
  return cells;
}
