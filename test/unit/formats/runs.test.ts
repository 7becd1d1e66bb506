import { describe, expect, it } from 'vitest';
import { findRuns } from '../../../src/formats/runs.ts';

const runs = (frequency: number[], breaks: number[] = []) => {
  const found = findRuns(Float64Array.from(frequency), breaks);
  return 'disorderAt' in found
    ? found
    : found.map(({ from, to, falling }) => `${from}-${to}${falling ? ' falling' : ''}`);
};

describe('cutting frequencies into sweeps', () => {
  it('keeps a rising or falling column in one piece', () => {
    expect(runs([1, 2, 2, 3])).toEqual(['0-3']);
    expect(runs([3, 2, 1])).toEqual(['0-2 falling']);
  });

  it('cuts where the range starts again, there and back as well', () => {
    expect(runs([1, 2, 3, 1, 2, 3])).toEqual(['0-2', '3-5']);
    expect(runs([1, 2, 3, 3, 2, 1])).toEqual(['0-3', '4-5 falling']);
    expect(runs([1, 2, 1, 2])).toEqual(['0-1', '2-3']);
  });

  it('cuts between ranges that have nothing in common', () => {
    expect(runs([14, 14.1, 14.2, 7, 7.1, 7.2])).toEqual(['0-2', '3-5']);
  });

  it('cuts where the file says so', () => {
    expect(runs([7, 7.1, 14, 14.1], [2])).toEqual(['0-1', '2-3']);
  });

  it('calls rows out of order what they are', () => {
    expect(runs([1, 2, 3, 5, 4, 6, 7])).toEqual({ disorderAt: 4 });
    expect(runs([2, 1, 3, 4, 5])).toEqual({ disorderAt: 2 });
    expect(runs([1, 2, 3, 4, 6, 5])).toEqual({ disorderAt: 5 });
    expect(runs([1, 3, 2, 4, 2.5, 5])).toEqual({ disorderAt: 2 });
  });

  it('finds nothing in nothing', () => {
    expect(runs([])).toEqual([]);
    expect(runs([1])).toEqual(['0-0']);
  });
});
