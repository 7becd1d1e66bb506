/** A decimal number as both formats know it; JavaScript's own Number would also take "", "0x10" and "Infinity". */
const DECIMAL = /^\s*[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?\s*$/u;

/** As {@link DECIMAL} with the exponent letter of older compilers. */
const DECIMAL_D = /^\s*[+-]?(?:\d+\.?\d*|\.\d+)[dD][+-]?\d+\s*$/u;

/**
 * Reads a decimal number strictly.
 *
 * @param decimalComma - whether the mark is a comma; a point is then refused, and the other way round
 * @returns NaN for anything else, and for what no double can hold
 */
export function readNumber(text: string, decimalComma = false): number {
  let plain = text;
  if (decimalComma) {
    if (text.includes('.')) return Number.NaN;
    plain = text.replace(',', '.');
  }
  if (!DECIMAL.test(plain)) return Number.NaN;
  const value = Number(plain);
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
