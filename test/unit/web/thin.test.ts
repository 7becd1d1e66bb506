import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { thin } from '../../../web/model/thin.ts';

const line = (n: number, of: (i: number) => number): number[] => Array.from({ length: n }, (_, i) => of(i));

describe('a curve thinned to what a picture can show', () => {
  it('stays whole when there is room for all of it', () => {
    const along = line(400, (i) => i);
    expect(thin(along, along, 100)).toEqual(along);
  });

  it('of a year of hours has at most four values a pixel', () => {
    const along = line(8760, (i) => i * 3_600_000);
    expect(thin(along, line(8760, Math.sin), 600).length).toBeLessThanOrEqual(2400);
  });

  it('keeps its ends, its least and its largest value, in their order, each once', () => {
    const cases = fc.record({
      values: fc.array(fc.double({ noNaN: true, noDefaultInfinity: true }), {
        minLength: 50,
        maxLength: 600,
      }),
      columns: fc.integer({ min: 1, max: 12 }),
    });
    fc.assert(
      fc.property(cases, ({ values, columns }) => {
        const kept = thin(
          line(values.length, (i) => i),
          values,
          columns,
        );
        expect(kept).toEqual([...new Set(kept)].sort((a, b) => a - b));
        expect([kept[0], kept.at(-1)]).toEqual([0, values.length - 1]);
        const shown = kept.map((i) => values[i] as number);
        expect(Math.min(...shown)).toBe(Math.min(...values));
        expect(Math.max(...shown)).toBe(Math.max(...values));
      }),
      { seed: 8, numRuns: 200 },
    );
  });
});
