import { describe, expect, it } from 'vitest';
import { cutStock, stockLengths } from '../../../../src/core/layout/cutting.ts';

describe('cutting stock', () => {
  it('takes each piece from the stock it leaves least of', () => {
    expect(cutStock([25, 11], [6, 6, 10])).toEqual([
      { stockM: 25, pieces: [6, 6], offcutM: 13 },
      { stockM: 11, pieces: [10], offcutM: 1 },
    ]);
  });

  it('says when the stock does not suffice, and leaves untouched stock out', () => {
    expect(cutStock([10], [6, 6])).toBeNull();
    expect(cutStock([10, 10], [6])).toHaveLength(1);
  });

  it('does not lose a piece to rounding', () => {
    expect(cutStock([0.3], [0.1, 0.1, 0.1])).not.toBeNull();
  });

  it('lists single lengths, longest first', () => {
    expect(
      stockLengths([
        { lengthM: 5, count: 2 },
        { lengthM: 25, count: 1 },
      ]),
    ).toEqual([25, 5, 5]);
  });
});
