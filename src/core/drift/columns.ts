/** Complex values over the bins of an observation: two columns of equal length. */
export interface Columns {
  readonly re: Float64Array;
  readonly im: Float64Array;
}

/** Zeros. */
export function emptyColumns(length: number): Columns {
  return { re: new Float64Array(length), im: new Float64Array(length) };
}

/** a − b. */
export function differenceOf(a: Columns, b: Columns): Columns {
  return { re: a.re.map((x, i) => x - (b.re[i] as number)), im: a.im.map((x, i) => x - (b.im[i] as number)) };
}

/** a times a real factor. */
export function scaled(a: Columns, factor: number): Columns {
  return { re: a.re.map((x) => x * factor), im: a.im.map((x) => x * factor) };
}

/** Every value turned by a quarter: j·a. */
export function turned(a: Columns): Columns {
  return { re: a.im.map((x) => -x), im: a.re.slice() };
}

/** Real and imaginary parts one after the other, length 2n. */
export function stacked(a: Columns): Float64Array {
  const both = new Float64Array(a.re.length * 2);
  both.set(a.re);
  both.set(a.im, a.re.length);
  return both;
}
