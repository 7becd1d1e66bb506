import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readSteps, STEPS_TEXT, writeSteps } from '../../../src/formats/page-data/steps-text.ts';

const SEED = 20_261_125;

function read(text: string, room: number): { count: number; numbers: number[] } {
  const column = new Float64Array(room);
  return { count: readSteps(text, column, 1), numbers: [...column] };
}

describe('a column as steps', () => {
  // ECMA-426, Source map format, Base64 VLQ: numbers of its readers' tests, from memory.
  it.each([
    [0, 'A'],
    [1, 'C'],
    [-1, 'D'],
    [15, 'e'],
    [16, 'gB'],
    [-16, 'hB'],
    [123, '2H'],
    [123456789, 'qxmvrH'],
  ])('is written as the standard writes, with %d', (integer, text) => {
    expect(writeSteps(Float64Array.of(integer), 1)).toBe(text);
    expect(read(text, 1)).toEqual({ count: 1, numbers: [integer] });
  });

  it('holds the first number and then what is added to it, in whole steps', () => {
    expect(writeSteps(Float64Array.of(12.3, 12.41, 12.3, 12.34), 10)).toBe('2HCDA');
  });

  it('comes back as it went, however large', () => {
    const some = fc.array(fc.integer({ min: -1e15, max: 1e15 }), { maxLength: 20 });
    fc.assert(
      fc.property(some, (integers) => {
        const text = writeSteps(Float64Array.from(integers), 1);
        expect(text).toMatch(STEPS_TEXT);
        expect(read(text, integers.length)).toEqual({ count: integers.length, numbers: integers });
      }),
      { seed: SEED },
    );
  });

  it('tells of more than there is room for, and of none that breaks off', () => {
    expect(read('CCC', 2)).toEqual({ count: 3, numbers: [1, 2] });
    expect(read('Cgg', 2)).toEqual({ count: 1, numbers: [1, 0] });
  });
});
