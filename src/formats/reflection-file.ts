import { createReflectionSweep, type ReflectionSweep } from '../core/sweep/reflection-sweep.ts';
import { readNumber } from './number-text.ts';
import { wholeFile } from './problem.ts';

/** The header of our files of uncorrected readings and of calibration standards. */
export const REFLECTION_HEADER = 'frequency_hz,reflection_re,reflection_im';

/**
 * Writes reflection coefficients as our own file: the shortest digits that read back to the same double, LF line
 * ends. The reference is not in it: the journal keeps it.
 */
export function writeReflections({ frequencyHz, reflectionRe, reflectionIm }: ReflectionSweep): string {
  const lines: string[] = [REFLECTION_HEADER];
  for (let i = 0; i < frequencyHz.length; i++) {
    lines.push(`${frequencyHz[i]},${reflectionRe[i]},${reflectionIm[i]}`);
  }
  return `${lines.join('\n')}\n`;
}

/**
 * Reads what {@link writeReflections} wrote.
 * @throws UserError `reflection-file-malformed`, or as {@link createReflectionSweep}
 */
export function readReflections(text: string, referenceOhm: number): ReflectionSweep {
  const [header, ...rows] = text.split('\n');
  if (header !== REFLECTION_HEADER || rows.pop() !== '') {
    throw malformed(`needs the header "${REFLECTION_HEADER}" and a line end after the last row`, 1);
  }
  const columns = [
    new Float64Array(rows.length),
    new Float64Array(rows.length),
    new Float64Array(rows.length),
  ] as const;
  rows.forEach((row, i) => {
    const cells = row.split(',').map((cell) => readNumber(cell));
    if (cells.length !== 3 || cells.some(Number.isNaN))
      throw malformed(`needs three plain numbers, got "${row.slice(0, 40)}"`, i + 2);
    columns.forEach((column, k) => {
      column[i] = cells[k] as number;
    });
  });
  const [frequencyHz, reflectionRe, reflectionIm] = columns;
  return createReflectionSweep({ frequencyHz, reflectionRe, reflectionIm, referenceOhm });
}

function malformed(message: string, line: number): Error {
  return wholeFile('reflection-file-malformed', message, line);
}
