/** Powers of ten that a double holds exactly. */
const EXACT_POWERS: Float64Array = Float64Array.from({ length: 23 }, (_, i) => Number(`1e${i}`));

/** So many digits always fit a double's integer range. */
const HEAD_DIGITS = 15;

/** So many more are worked out exactly below. */
const TAIL_DIGITS = 7;

const [PLUS, MINUS, ZERO, NINE] = [43, 45, 48, 57];

/**
 * Reads plain decimal numbers (`-12.5`, no exponent) straight out of a text and rounds them as Number does, without
 * cutting the text up. Up to 15 digits and a power of ten up to 22 are exact doubles, so that one division rounds
 * correctly; up to 7 digits more go through {@link longQuotient}. What it cannot vouch for it leaves to Number.
 *
 * Source: W. D. Clinger, "How to read floating point numbers accurately", PLDI 1990 (the fast path).
 */
export class DecimalScanner {
  /** Where the last number ended: the index of the first character that is no part of it. */
  end = 0;

  /**
   * @param mark - character code of the decimal mark; without a digit on either side it is no part of the number
   * @returns the number at `from`, or NaN where there is none
   */
  scan(text: string, from: number, mark: number): number {
    let at = from;
    let code = text.charCodeAt(at);
    const negative = code === MINUS;
    if (negative || code === PLUS) code = text.charCodeAt(++at);
    let [head, tail, digits, decimals] = [0, 0, 0, 0];
    for (; code >= ZERO && code <= NINE; code = text.charCodeAt(++at), digits++) {
      if (digits < HEAD_DIGITS) head = head * 10 + (code - ZERO);
      else tail = tail * 10 + (code - ZERO);
    }
    if (digits > 0 && code === mark) {
      const whole = digits;
      code = text.charCodeAt(++at);
      for (; code >= ZERO && code <= NINE; code = text.charCodeAt(++at), digits++) {
        if (digits < HEAD_DIGITS) head = head * 10 + (code - ZERO);
        else tail = tail * 10 + (code - ZERO);
      }
      decimals = digits - whole;
      if (decimals === 0) at--;
    }
    this.end = at;
    if (digits === 0) return Number.NaN;
    let size: number;
    if (digits <= HEAD_DIGITS) size = head / (EXACT_POWERS[decimals] as number);
    else {
      const tailDigits = digits - HEAD_DIGITS;
      size =
        tailDigits <= TAIL_DIGITS && decimals < EXACT_POWERS.length
          ? longQuotient(head, EXACT_POWERS[tailDigits] as number, tail, EXACT_POWERS[decimals] as number)
          : Number.NaN;
      if (Number.isNaN(size)) return Number(plainText(text.slice(from, at), mark));
    }
    return negative ? -size : size;
  }
}

/** Splits a double into two halves of 26 bits, whose products are exact. */
const SPLITTER = 2 ** 27 + 1;

/** More than what the second part of the quotient can be off by, relative to itself. */
const DOUBT = 2 ** -50;

/**
 * (head · scale + tail) / divisor, correctly rounded, by the product and the remainder of a division without error;
 * NaN where the result lies too near the middle between two doubles to be sure.
 *
 * Source: T. J. Dekker, "A floating-point technique for extending the available precision", Numer. Math. 18 (1971);
 * A. Ziv, "Fast evaluation of elementary mathematical functions with correctly rounded last bit", ACM TOMS 17 (1991).
 */
function longQuotient(head: number, scale: number, tail: number, divisor: number): number {
  const product = head * scale;
  const low = productError(head, scale, product) + tail;
  const dividend = product + low;
  const rest = low - (dividend - product);
  const quotient = dividend / divisor;
  const back = quotient * divisor;
  const remainder = dividend - back - productError(quotient, divisor, back);
  const correction = (remainder + rest) / divisor;
  const result = quotient + correction * (1 + DOUBT);
  return result === quotient + correction * (1 - DOUBT) ? result : Number.NaN;
}

/** a · b − product, without error. */
function productError(a: number, b: number, product: number): number {
  const highA = a * SPLITTER - (a * SPLITTER - a);
  const highB = b * SPLITTER - (b * SPLITTER - b);
  const lowA = a - highA;
  const lowB = b - highB;
  return lowA * lowB - (product - highA * highB - lowA * highB - highA * lowB);
}

function plainText(number: string, mark: number): string {
  return number.replace(String.fromCharCode(mark), '.');
}
