import { describe, expect, it } from 'vitest';
import { ticks } from '../../../web/pictures/ticks.ts';

describe('round numbers along an axis', () => {
  it.each([
    [0, 10, 5, [0, 2, 4, 6, 8, 10], 0],
    [38.2, 55.1, 6, [40, 45, 50, 55], 0],
    [-0.31, 0.16, 4, [-0.2, 0], 1],
    [7.01, 7.14, 5, [7.05, 7.1], 2],
    [5, 5, 4, [5], 0],
  ])('from %d to %d, at most about %d', (from, to, most, values, decimals) => {
    const found = ticks(from, to, most);
    expect(found.values.map((value) => Number(value.toFixed(6)))).toEqual(values);
    expect(found.decimals).toBe(decimals);
  });
});
