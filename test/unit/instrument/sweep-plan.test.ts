import { describe, expect, it } from 'vitest';
import { bandsOfRegion } from '../../../src/core/sweep/bands.ts';
import { reachesInto } from '../../../src/core/visits-in-band.ts';
import type { Identity } from '../../../src/instrument/instrument.ts';
import { planSweep, type SweepWish, widestRange } from '../../../src/instrument/sweep-plan.ts';

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

const FIRST: SweepWish = {
  band: BAND,
  sweptLast: null,
  shownLast: null,
  asked: { fromHz: null, toHz: null },
  points: 101,
};
const USUAL = { startHz: 6_250_000, stopHz: 7_950_000, points: 101 };

describe('planSweep', () => {
  it('looks a tenth beyond the band', () => {
    expect(planSweep(FIRST, ANY)).toEqual(USUAL);
  });

  it('sweeps as the last visit did while that leaves room beyond what it showed', () => {
    const sweptLast = { fromHz: 6_000_000, toHz: 8_000_000 };
    for (const shownLast of [null, { fromHz: 6_600_000, toHz: 7_500_000 }]) {
      const grid = planSweep({ ...FIRST, sweptLast, shownLast }, ANY);
      expect(grid).toMatchObject({ startHz: 6_000_000, stopHz: 8_000_000 });
    }
    expect(planSweep({ ...FIRST, sweptLast: { fromHz: 7e6, toHz: 7.2e6 } }, ANY)).toEqual(USUAL);
  });

  it('grows where the dip ran out of the last visit, and then stays', () => {
    const open = { fromHz: 6_250_000, toHz: 7_500_000 };
    const grown = planSweep({ ...FIRST, sweptLast: { fromHz: 6.25e6, toHz: 7.95e6 }, shownLast: open }, ANY);
    expect(grown).toMatchObject({ startHz: 5_500_000, stopHz: 7_950_000 });
    const sweptLast = { fromHz: grown.startHz, toHz: grown.stopHz };
    for (const fromHz of [6_100_000, 5_900_000]) {
      expect(planSweep({ ...FIRST, sweptLast, shownLast: { fromHz, toHz: 7.5e6 } }, ANY)).toEqual(grown);
    }
  });

  it('reaches into no other band by itself, however wide the last visit was', () => {
    const sweptLast = { fromHz: 1e6, toHz: 90e6 };
    for (const band of bandsOfRegion(2)) {
      const { startHz, stopHz } = planSweep({ ...FIRST, band, sweptLast }, ANY);
      const range = { fromHz: startHz, toHz: stopHz };
      expect(range).toEqual(widestRange(band));
      expect(bandsOfRegion(2).filter((other) => reachesInto(range, other))).toEqual([band]);
    }
  });

  it('takes the ends that are asked for', () => {
    const asked = { fromHz: 5_123_456, toHz: null };
    const sweptLast = { fromHz: 6_250_000, toHz: 8_000_000 };
    const grid = planSweep({ ...FIRST, sweptLast, asked }, ANY);
    expect(grid).toMatchObject({ startHz: 5_123_456, stopHz: 8_000_000 });
    expect(() => planSweep({ ...FIRST, asked }, { ...ANY, lowestHz: 6e6 })).toThrowError(/does not cover/u);
  });

  it('keeps within what the instrument can', () => {
    const narrow = { ...ANY, lowestHz: 6_900_000, highestHz: 7_300_000, mostPoints: 51 };
    expect(planSweep(FIRST, narrow)).toEqual({ startHz: 6_900_000, stopHz: 7_300_000, points: 51 });
  });

  it('refuses a band that the instrument does not cover', () => {
    const low = { ...ANY, highestHz: 7_100_000 };
    expect(() => planSweep(FIRST, low)).toThrowError(/does not cover 40m/u);
  });
});
