import { describe, expect, it } from 'vitest';
import { roundDown, roundDownSignificant, roundUp } from '../../../../src/core/safety/rounding.ts';

describe('rounding to the careful side', () => {
  it('rounds up what people keep, and forgives the last bit', () => {
    expect(roundUp(1.21, 10)).toBe(1.3);
    expect(roundUp(0.1 + 0.2, 10)).toBe(0.3);
    expect(roundUp(25.000000000000004, 100)).toBe(25);
  });

  it('rounds down what people have, and forgives the last bit', () => {
    expect(roundDown(6.49, 10)).toBe(6.4);
    expect(roundDown(0.7 * 3, 10)).toBe(2.1);
  });

  it.each([
    [1234.9, 1230],
    [99.99, 99.9],
    [100, 100],
    [0.012349, 0.0123],
    [0, 0],
  ])('cuts %d to three digits: %d', (value, cut) => {
    expect(roundDownSignificant(value, 3)).toBe(cut);
  });
});
