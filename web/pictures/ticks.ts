/** Round numbers along an axis. */
export interface Ticks {
  readonly values: readonly number[];
  readonly decimals: number;
}

/**
 * Round numbers (1, 2, 5 times a power of ten) within a range.
 * @param most - how many there is room for
 */
export function ticks(from: number, to: number, most: number): Ticks {
  const span = to - from;
  if (!(span > 0)) return { values: [from], decimals: 0 };
  const rough = span / Math.max(1, most);
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = power * ([1, 2, 5, 10].find((times) => times * power >= rough) as number);
  const first = Math.ceil(from / step - 1e-9);
  const count = Math.floor(to / step + 1e-9) - first + 1;
  return {
    values: Array.from({ length: count }, (_, i) => (first + i) * step),
    decimals: Math.max(0, -Math.floor(Math.log10(step) + 1e-9)),
  };
}
