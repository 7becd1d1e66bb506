import { describe, expect, it } from 'vitest';
import { didYouMean, nearMiss } from '../../../src/core/near-miss.ts';

describe('near miss', () => {
  const words = ['height', 'diameter', 'bands', 'kind'];

  it('finds the word behind a swapped, missing, doubled or wrong letter', () => {
    for (const typed of ['heigth', 'hight', 'heightt', 'heught', 'HEIGHT']) {
      expect(nearMiss(typed, words)).toBe('height');
    }
  });

  it('stays silent when nothing is near', () => {
    expect(nearMiss('colour', words)).toBeUndefined();
    expect(didYouMean('colour', words)).toBe('');
  });

  it('prefers the nearest of several', () => {
    expect(nearMiss('band', ['hand', 'bands', 'band'])).toBe('band');
  });
});
