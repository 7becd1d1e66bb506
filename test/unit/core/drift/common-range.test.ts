import { describe, expect, it } from 'vitest';
import { onCommonRange } from '../../../../src/core/drift/common-range.ts';
import type { MeasuredVisit } from '../../../../src/core/record.ts';
import { createSweep } from '../../../../src/core/sweep/sweep.ts';

const BAND = { band: '40m', fromHz: 7e6, toHz: 7.2e6 };

function visit(...ranges: (readonly [fromHz: number, toHz: number])[]): MeasuredVisit {
  const shots = ranges.map(([fromHz, toHz]) => {
    const frequencyHz = Float64Array.from({ length: 101 }, (_, i) => fromHz + ((toHz - fromHz) * i) / 100);
    return createSweep({
      frequencyHz,
      resistanceOhm: frequencyHz.map(() => 40),
      reactanceOhm: frequencyHz.map(() => 0),
    });
  });
  return { label: '', time: null, shots, referenceLoad: [] };
}

const ranges = (visits: readonly MeasuredVisit[]): (readonly number[])[] =>
  visits.flatMap(({ shots }) =>
    shots.map(({ frequencyHz: f }) => [(f[0] as number) / 1e6, (f.at(-1) as number) / 1e6]),
  );

describe('a common range', () => {
  it('is cut out of a first wide sweep, so that the narrow ones can be held against it', () => {
    const cut = onCommonRange([visit([6.25e6, 7.95e6]), visit([6.8e6, 7.4e6])], [BAND]);
    const [[from, to] = [], narrow] = ranges(cut);
    expect(from).toBeGreaterThanOrEqual(6.8);
    expect(to).toBeLessThanOrEqual(7.4);
    expect(narrow).toEqual([6.8, 7.4]);
  });

  it('leaves sweeps as wide as they are where all are alike', () => {
    const wide = [visit([3e6, 30e6]), visit([3e6, 29e6])];
    expect(onCommonRange(wide, [BAND])).toEqual(wide);
  });

  it('is not narrowed by a sweep that lacks a part of the band', () => {
    const cut = onCommonRange(
      [visit([6.25e6, 7.95e6]), visit([6.8e6, 7.4e6]), visit([7.05e6, 7.1e6])],
      [BAND],
    );
    expect(ranges(cut).slice(1)).toEqual([
      [6.8, 7.4],
      [7.05, 7.1],
    ]);
  });
});
