import { describe, expect, it } from 'vitest';
import { placeOf, signedTo, textTo } from '../../../../src/core/proof/rounding.ts';

describe('placeOf', () => {
  it('shows an uncertainty with two digits, whatever its size', () => {
    const shown = (u: number) => textTo(placeOf(u, 2), u);
    expect([0.0351, 0.149, 3.26, 14.7, 221, 1480].map(shown)).toEqual([
      '0.035',
      '0.15',
      '3.3',
      '15',
      '220',
      '1500',
    ]);
  });

  // JCGM 100:2008, 7.2.6: y = 10.05762 ohm with u = 27 mohm is stated as 10.058 ohm.
  it('rounds the figure to the place of its uncertainty, as the example of JCGM 100, 7.2.6, is rounded', () => {
    expect(textTo(placeOf(0.027, 2), 10.057_62)).toBe('10.058');
    expect(textTo(placeOf(221, 2), 1616.2)).toBe('1620');
  });

  it('counts 0.0996 as 0.10, not as 0.100', () => {
    expect(textTo(placeOf(0.0996, 2), 0.0996)).toBe('0.10');
  });

  it('takes the given decimals where no uncertainty is known', () => {
    expect([null, 0].map((u) => textTo(placeOf(u, 2), 3.456))).toEqual(['3.46', '3.46']);
  });

  it('gives zero no sign', () => {
    expect([-0.01, 0.01, 0.06].map((value) => signedTo(placeOf(1, 2), value))).toEqual([
      '0.0',
      '0.0',
      '+0.1',
    ]);
  });
});
