import { DecimalScanner } from './decimal-scanner.ts';

/** A decimal number as both formats know it; JavaScript's own Number would also take "", "0x10" and "Infinity". */
const DECIMAL = /^\s*[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?\s*$/u;

/** As {@link DECIMAL} with the exponent letter of older compilers. */
const DECIMAL_D = /^\s*[+-]?(?:\d+(?:\.\d*)?|\.\d+)[dD][+-]?\d+\s*$/u;

const [COMMA, POINT] = [44, 46];

const scanner = new DecimalScanner();

/**
 * Reads a decimal number strictly.
 *
 * @param decimalComma - whether the mark is a comma; a point is then refused, and the other way round
 * @returns NaN for anything else, and for what no double can hold
 */
export function readNumber(text: string, decimalComma = false): number {
  const plain = scanner.scan(text, 0, decimalComma ? COMMA : POINT);
  return scanner.end === text.length ? plain : readAnyNumber(text, decimalComma);
}

function readAnyNumber(text: string, decimalComma: boolean): number {
  if (decimalComma && text.includes('.')) return Number.NaN;
  const pointed = decimalComma ? text.replace(',', '.') : text;
  const value = DECIMAL.test(pointed) ? Number(pointed) : Number.NaN;
  return Number.isFinite(value) ? value : Number.NaN;
}

/** A number written with a `D` exponent (`1.5D+02`) or a typographic minus sign; NaN for anything else. */
export function readOddNumber(text: string, decimalComma = false): number {
  const plain = text.replace('\u2212', '-');
  return readNumber(
    DECIMAL_D.test(plain.replace(',', '.')) ? plain.replace(/[dD]/u, 'e') : plain,
    decimalComma,
  );
}
