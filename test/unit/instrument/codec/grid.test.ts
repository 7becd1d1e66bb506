import { describe, expect, it } from 'vitest';
import { gridFrequenciesHz, gridFrequencyHz } from '../../../../src/instrument/codec/grid.ts';
import { readRows } from '../../../support/protocol-vectors.ts';

describe('the grid of a sweep', () => {
  it.each(readRows('vectors/grids.txt'))('agrees with the vectors: %s', (row) => {
    const [startHz = 0, stopHz = 0, points = 0, number = 0, expectedHz] = row.split(' ').map(Number);
    expect(gridFrequencyHz({ startHz, stopHz, points }, number)).toBe(expectedHz);
  });

  it('rises strictly even where the span is as narrow as it may be', () => {
    expect([...gridFrequenciesHz({ startHz: 100, stopHz: 104, points: 5 })]).toEqual([
      100, 101, 102, 103, 104,
    ]);
  });
});
