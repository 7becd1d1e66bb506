import { quoted } from '../../core/quoted.ts';
import { readNumber, readOddNumber } from '../number-text.ts';
import type { ProblemList } from '../problem.ts';
import type { Token } from './lexer.ts';
import type { TouchstoneStructure } from './structure.ts';

/** One port's pairs as they stand in the file, in its units. */
export interface TouchstonePairs {
  readonly frequency: number[];
  readonly first: number[];
  readonly second: number[];
  readonly line: number[];
}

/**
 * Reads the numbers: from each frequency with its 2n² (or n(n + 1) for half a matrix) numbers it keeps the pair of one
 * port's own reflection. A frequency always begins a line; line breaks elsewhere do not matter, except that a
 * one-port file of version 1 has one point a line.
 *
 * @param port - counted from 1
 */
export function readPairs(
  structure: TouchstoneStructure,
  ports: number,
  port: number,
  decimalComma: boolean,
  problems: ProblemList,
): TouchstonePairs {
  const half = structure.matrix !== 'full' && ports > 1;
  const perFrequency = 1 + (half ? ports * (ports + 1) : 2 * ports * ports);
  const wanted = 1 + 2 * pairIndex(ports, port, half ? structure.matrix : 'full');
  const onePerLine = structure.version === '1' && ports === 1;
  const pairs: TouchstonePairs = { frequency: [], first: [], second: [], line: [] };
  let gathered: number[] = [];
  let startLine = 0;
  for (const { line, tokens } of structure.data) {
    if (structure.version === '1' && ports === 2 && isNoise(tokens, gathered, pairs)) {
      problems.note('noise-not-read', 'noise data are not read', line);
      break;
    }
    if (gathered.length === 0) startLine = line;
    for (const token of tokens) gathered.push(readToken(token, line, decimalComma, problems));
    if (gathered.length > perFrequency || (onePerLine && gathered.length < perFrequency)) {
      problems.refuse(
        'number-count',
        `needs ${perFrequency} numbers a frequency, got ${gathered.length}`,
        line,
      );
      gathered = [];
    } else if (gathered.length === perFrequency) {
      // A number that was refused is NaN and takes its whole point with it.
      if (gathered.every((value) => !Number.isNaN(value))) {
        pairs.frequency.push(gathered[0] as number);
        pairs.first.push(gathered[wanted] as number);
        pairs.second.push(gathered[wanted + 1] as number);
        pairs.line.push(startLine);
      }
      gathered = [];
    }
  }
  if (gathered.length > 0) {
    problems.refuse(
      'number-count',
      `needs ${perFrequency} numbers a frequency, got ${gathered.length}: the file seems cut short`,
      startLine,
    );
  }
  return pairs;
}

/** Where a port's own pair stands after the frequency. Two ports in the order 21/12 change nothing for it. */
function pairIndex(ports: number, port: number, matrix: TouchstoneStructure['matrix']): number {
  const k = port - 1;
  if (matrix === 'lower') return (k * (k + 3)) / 2;
  if (matrix === 'upper') return k * ports - (k * (k - 1)) / 2;
  return k * (ports + 1);
}

/** Version 1 tells noise only by five numbers and a frequency that does not rise. */
function isNoise(tokens: readonly Token[], gathered: readonly number[], pairs: TouchstonePairs): boolean {
  const last = pairs.frequency.at(-1);
  return (
    tokens.length === 5 &&
    gathered.length === 0 &&
    last !== undefined &&
    readNumber(tokens[0]?.text ?? '') <= last
  );
}

function readToken(token: Token, line: number, decimalComma: boolean, problems: ProblemList): number {
  const value = readNumber(token.text, decimalComma);
  if (!Number.isNaN(value)) return value;
  const odd = readOddNumber(token.text, decimalComma);
  if (!Number.isNaN(odd)) {
    problems.note('exponent-letter', `${quoted(token.text)} was read as ${odd}`, line, token.column);
    return odd;
  }
  if (/^[+-]?\d*,\d/u.test(token.text) && !decimalComma) {
    problems.refuse(
      'decimal-comma',
      `needs a decimal point, got ${quoted(token.text)}: a decimal comma, which has to be declared, or a list with commas, which is not Touchstone`,
      line,
      token.column,
      { choices: [{ decimal: 'comma' }], examples: false },
    );
  } else {
    problems.refuse('number-wrong', `needs a number, got ${quoted(token.text)}`, line, token.column);
  }
  return Number.NaN;
}
