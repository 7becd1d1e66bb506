import { describe, expect, it } from 'vitest';
import { estimateWords } from '../../../../src/core/drift/estimate-words.ts';

const words = (probability: number, value: number, expandedUncertainty: number, unit = 'count') =>
  estimateWords(
    { probability, estimate: { name: 'radials without contact', value, unit, expandedUncertainty } },
    (x, decimals) => x.toFixed(decimals),
  );

describe('the words of an estimate', () => {
  it('tell no size of a cause that is not believed, nor of one without a size', () => {
    expect(words(0.004, 3, 1)).toBeNull();
    expect(words(0.006, 3, 1)).not.toBeNull();
    expect(estimateWords({ probability: 0.9, estimate: null }, String)).toBeNull();
  });

  it('tell a count near the least there can be by the most it may be', () => {
    expect(words(0.3, 1, 0.1)).toBe('radials without contact up to 2');
    expect(words(0.3, 3, 2.4)).toBe('radials without contact up to 6');
    expect(words(0.3, 5, 1.2)).toBe('radials without contact 5.0 ± 1.2');
  });

  it('keep two digits of the uncertainty, and the unit', () => {
    expect(words(0.9, 3.9012, 0.3234, 'ohm')).toBe('radials without contact 3.90 ± 0.32 ohm');
  });
});
