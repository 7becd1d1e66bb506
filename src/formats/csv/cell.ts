import { readNumber, readOddNumber } from '../number-text.ts';

/** What instruments and spreadsheets write where they have no value; a bound such as `>10` is no value either. */
const NO_VALUE =
  /^(?:|-+|\?+|\*+|[+-]?(?:nan|inf|infinity|∞)|n\/?a|null|none|ovf|overflow|ol|#n\/a|#num!|#div\/0!|[+-]?1\.#(?:inf|ind|qnan|snan)\d*|[<>≥≤]\s*[\d.,]+)$/iu;

/** True for a cell that says "nothing here". */
export function saysNoValue(cell: string): boolean {
  return NO_VALUE.test(cell.trim());
}

/** A cell as a number, or NaN. */
export function cellNumber(cell: string, decimalComma: boolean): number {
  const value = readNumber(cell, decimalComma);
  return Number.isNaN(value) ? readOddNumber(cell, decimalComma) : value;
}

/** A number with separators between thousands, whose mark cannot be told: `7,100.5`, `7.100,5`, `7 100,5`, `7'100.5`. */
export function hasThousands(cell: string): boolean {
  return /^\s*[+-]?\d{1,3}(?:([.,'’\u00a0\u202f ])\d{3})+(?:(?!\1)[.,]\d+)?\s*$/u.test(cell);
}

/** True for a number whose one comma may be a decimal one or stand between thousands: `7,100`, but not `0,316` or `7,10`. */
export function hasEitherComma(cell: string): boolean {
  return /^\s*[+\-\u2212]?[1-9]\d{0,2},\d{3}\s*$/u.test(cell);
}

/** What to do about {@link hasThousands}. */
export const THOUSANDS =
  'separators between thousands cannot be told from decimal marks, write plain numbers';

/** A number with its unit in one cell: `7.1 MHz`, `41 ohm`, `-12dB`. */
export function hasUnit(cell: string): boolean {
  return /^\s*[+-]?\d+(?:[.,]\d+)?\s*(?:[kmg]?hz|k?ohms?|k?[ωΩ\u2126]|db|deg|rad|°)\s*$/iu.test(cell);
}
