/**
 * Source: S. Holm, "A simple sequentially rejective multiple test procedure", Scandinavian Journal of Statistics 6(2),
 * 65–70, 1979. Status: computed, by hand from the procedure.
 *
 * Tolerance: rounding.
 *
 * 0.005, 0.01, 0.03, 0.04 in rising order are multiplied by 4, 3, 2, 1: 0.02, 0.03, 0.06, 0.04; the last may not be
 * less than the one before it: 0.06.
 */
import { describe, expect, it } from 'vitest';
import { holmAdjusted } from '../../src/core/proof/holm.ts';
import { expectClose } from '../support/expect-close.ts';

describe('Holm’s correction', () => {
  it('gives the hand-worked values in the order in which they were asked', () => {
    const adjusted = holmAdjusted([0.01, 0.04, 0.03, 0.005]);
    [0.03, 0.06, 0.06, 0.02].forEach((value, i) => {
      expectClose(adjusted[i], value, { absolute: 1e-15 });
    });
  });
  it('leaves a single test alone and never passes 1', () => {
    expect(holmAdjusted([0.04])).toEqual([0.04]);
    expect(holmAdjusted([0.9, 0.8])).toEqual([1, 1]);
    expect(holmAdjusted([])).toEqual([]);
  });
});
