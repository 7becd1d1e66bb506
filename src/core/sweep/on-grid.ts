/** A complex column over rising frequencies, length n ≥ 2. */
export interface ComplexColumn {
  readonly frequencyHz: Float64Array;
  readonly re: Float64Array;
  readonly im: Float64Array;
}

/**
 * A complex column on other frequencies, each part linear between its neighbours.
 * @param gridHz - rising, within the column's frequencies
 */
export function onGrid(column: ComplexColumn, gridHz: Float64Array): { re: Float64Array; im: Float64Array } {
  const f = column.frequencyHz;
  const re = new Float64Array(gridHz.length);
  const im = new Float64Array(gridHz.length);
  let j = 0;
  for (let i = 0; i < gridHz.length; i++) {
    const wanted = gridHz[i] as number;
    while (j < f.length - 2 && (f[j + 1] as number) < wanted) j++;
    const t = (wanted - (f[j] as number)) / ((f[j + 1] as number) - (f[j] as number));
    re[i] = (column.re[j] as number) * (1 - t) + (column.re[j + 1] as number) * t;
    im[i] = (column.im[j] as number) * (1 - t) + (column.im[j + 1] as number) * t;
  }
  return { re, im };
}
