import { describe, expect, it } from 'vitest';
import { createScalarSweep, createSweep } from '../../../../src/core/sweep/sweep.ts';
import { UserError } from '../../../../src/core/user-error.ts';

const columns = (f: number[], r: number[], x: number[]) => ({
  frequencyHz: Float64Array.from(f),
  resistanceOhm: Float64Array.from(r),
  reactanceOhm: Float64Array.from(x),
});

function codeOf(action: () => unknown): string {
  try {
    action();
  } catch (error) {
    if (error instanceof UserError) return error.code;
    throw error;
  }
  return 'accepted';
}

describe('a sweep is made only of what can be one', () => {
  it('keeps rising finite columns as they came', () => {
    const sweep = createSweep(columns([1e6, 2e6], [-3, 50], [0, -10]));
    expect([...sweep.frequencyHz]).toEqual([1e6, 2e6]);
    expect(sweep.referenceOhm).toBe(50);
    expect(sweep.plane).toBe('feedpoint');
  });

  it.each([
    ['one point', [1e6], [50], [0], 'sweep-too-short'],
    ['a repeated frequency', [1e6, 1e6], [50, 50], [0, 0], 'sweep-not-rising'],
    ['a falling frequency', [2e6, 1e6], [50, 50], [0, 0], 'sweep-not-rising'],
    ['a negative frequency', [-1, 1e6], [50, 50], [0, 0], 'sweep-not-finite'],
    ['an infinite resistance', [1e6, 2e6], [50, Number.POSITIVE_INFINITY], [0, 0], 'sweep-not-finite'],
    ['a missing reactance', [1e6, 2e6], [50, 50], [0, Number.NaN], 'sweep-not-finite'],
    ['columns of different length', [1e6, 2e6], [50], [0, 0], 'sweep-lengths-differ'],
  ])('refuses %s', (_, f, r, x, code) => {
    expect(codeOf(() => createSweep(columns(f, r, x)))).toBe(code);
  });

  it('refuses a reference that is not a positive resistance', () => {
    const pair = columns([1e6, 2e6], [50, 50], [0, 0]);
    expect(codeOf(() => createSweep({ ...pair, referenceOhm: 0 }))).toBe('reference-not-positive');
  });

  it('lets a scalar sweep have gaps but no SWR under one', () => {
    const frequencyHz = Float64Array.from([1e6, 2e6]);
    expect(createScalarSweep({ frequencyHz, swr: Float64Array.from([1, Number.NaN]) }).kind).toBe('swr');
    expect(codeOf(() => createScalarSweep({ frequencyHz, swr: Float64Array.from([0.9, 2]) }))).toBe(
      'swr-below-one',
    );
  });
});
