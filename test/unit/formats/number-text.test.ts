import { describe, expect, it } from 'vitest';
import { readNumber, readOddNumber } from '../../../src/formats/number-text.ts';

describe('a number in a file', () => {
  it('is read in every way that both formats allow', () => {
    const good: Record<string, number> = {
      '1': 1,
      '-1.5': -1.5,
      '+11.26': 11.26,
      '.95': 0.95,
      '5.': 5,
      '1E-02': 0.01,
      '-3.357854e+001': -33.57854,
      '3.000000000000000E+005': 300_000,
      ' 7.1 ': 7.1,
      '0.12345678901234567890123': 0.12345678901234568,
    };
    for (const [text, value] of Object.entries(good)) expect(readNumber(text), text).toBe(value);
  });

  it('is nothing that only JavaScript takes for one, and nothing half read', () => {
    for (const text of [
      '',
      ' ',
      '0x10',
      'Infinity',
      'NaN',
      '1_0',
      '1,5',
      '1.5x',
      '--1',
      '1e',
      '.',
      '1e999',
      '1.2.3',
    ]) {
      expect(readNumber(text), text).toBeNaN();
    }
  });

  it('has one decimal mark, the one that is asked for', () => {
    expect(readNumber('-1,5', true)).toBe(-1.5);
    expect(readNumber('1,5e2', true)).toBe(150);
    expect(readNumber(',5', true)).toBe(0.5);
    for (const text of ['1.5', '1.000,5', '1,000,5']) expect(readNumber(text, true), text).toBeNaN();
  });

  it('may have the exponent letter of older compilers or a typographic minus, which is told', () => {
    expect(readOddNumber('1.5D+02')).toBe(150);
    expect(readOddNumber('1,5d-1', true)).toBe(0.15);
    expect(readOddNumber('−3.5')).toBe(-3.5);
    expect(readOddNumber('D3')).toBeNaN();
  });
});
