import { describe, expect, it } from 'vitest';
import type { Identity } from '../../../src/instrument/instrument.ts';
import { planSweep } from '../../../src/instrument/sweep-plan.ts';

const BAND = { band: '40m', fromHz: 7_000_000, toHz: 7_200_000 };
const ANY: Identity = {
  model: null,
  serial: null,
  lowestHz: null,
  highestHz: null,
  mostPoints: null,
  corrected: true,
  referenceOhm: 50,
};

describe('planSweep', () => {
  it('looks a tenth beyond the band where no resonance is known', () => {
    const grid = planSweep({ band: BAND, resonanceHz: null, points: 101 }, ANY);
    expect(grid).toEqual({ startHz: 6_250_000, stopHz: 7_950_000, points: 101 });
  });

  it('covers the band and both sides of a known resonance', () => {
    const inside = planSweep({ band: BAND, resonanceHz: 7_100_000, points: 101 }, ANY);
    expect(inside).toMatchObject({ startHz: 6_800_000, stopHz: 7_400_000 });
    const below = planSweep({ band: BAND, resonanceHz: 6_500_000, points: 101 }, ANY);
    expect(below.startHz).toBeLessThan(6_500_000 * 0.97);
    expect(below.stopHz).toBeGreaterThan(7_200_000);
  });

  it('walks the same grid while the resonance moves a little', () => {
    const plan = (resonanceHz: number): unknown => planSweep({ band: BAND, resonanceHz, points: 101 }, ANY);
    expect(plan(7_110_000)).toEqual(plan(7_100_000));
  });

  it('keeps within what the instrument can', () => {
    const narrow = { ...ANY, lowestHz: 6_900_000, highestHz: 7_300_000, mostPoints: 51 };
    const grid = planSweep({ band: BAND, resonanceHz: null, points: 101 }, narrow);
    expect(grid).toEqual({ startHz: 6_900_000, stopHz: 7_300_000, points: 51 });
  });

  it('refuses a band that the instrument does not cover', () => {
    const low = { ...ANY, highestHz: 7_100_000 };
    expect(() => planSweep({ band: BAND, resonanceHz: null, points: 101 }, low)).toThrowError(
      /does not cover 40m/u,
    );
  });
});
