import { describe, expect, it } from 'vitest';
import { createSweep } from '../../../../src/core/sweep/sweep.ts';
import { writeTouchstone } from '../../../../src/formats/touchstone/write.ts';
import { userErrorOf } from '../../../support/user-error-of.ts';

const sweep = createSweep({
  frequencyHz: Float64Array.of(7e6, 7.1e6),
  resistanceOhm: Float64Array.of(150, 50),
  reactanceOhm: Float64Array.of(0, 0),
});

describe('writing Touchstone', () => {
  it('gives version 1, hertz and the reflection in ohms of the sweep’s reference', () => {
    expect(writeTouchstone(sweep)).toBe('# Hz S RI R 50\n7000000 0.5 0\n7100000 0 0\n');
  });

  it('keeps comments to ASCII and to one line each, without a second comment sign', () => {
    expect(writeTouchstone(sweep, { comments: ['Ω! two\nlines'] })).toMatch(/^! \? two\n! lines\n# Hz/u);
  });

  it('gives version 2.1 with every keyword it needs', () => {
    expect(writeTouchstone(sweep, { version: '2.1', parameter: 'Z', unit: 'MHz' })).toBe(
      '[Version] 2.1\n# MHz Z RI R 50\n[Number of Ports] 1\n[Number of Frequencies] 2\n[Reference] 50\n[Network Data]\n7 150 0\n7.1 50 0\n[End]\n',
    );
  });

  it('refuses a point that the form has no number for', () => {
    expect(userErrorOf(() => writeTouchstone(sweep, { format: 'DB' }))).toEqual([
      'pair-impossible',
      undefined,
    ]);
    const active = createSweep({ ...sweep, resistanceOhm: Float64Array.of(-50, 50) });
    expect(userErrorOf(() => writeTouchstone(active))).toEqual(['pair-impossible', undefined]);
    expect(writeTouchstone(active, { parameter: 'Z' })).toContain('7000000 -1 0');
  });
});
