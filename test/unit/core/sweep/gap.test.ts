import { describe, expect, it } from 'vitest';
import { isGap } from '../../../../src/core/sweep/gap.ts';
import { findResonances } from '../../../../src/core/sweep/resonance.ts';
import { createSweep } from '../../../../src/core/sweep/sweep.ts';
import { summariseBand, swrDips } from '../../../../src/core/sweep/swr-summary.ts';
import { grid } from '../../../support/antenna-model.ts';

/** Swept from 7.0 to 7.1 MHz, where X ends at +20, and from 14.0 to 14.2 MHz, where X begins at −20. */
const frequencyHz = Float64Array.from([...grid(7e6, 7.1e6, 21), ...grid(14e6, 14.2e6, 21)]);
const sweep = createSweep({
  frequencyHz,
  resistanceOhm: new Float64Array(42).fill(50),
  reactanceOhm: frequencyHz.map((f) => (f < 10e6 ? (f - 7.05e6) / 2.5e3 : (f - 14.1e6) / 5e3)),
});
const band = (fromHz: number, toHz: number) => ({ band: 'a band', fromHz, toHz });

describe('a gap in a sweep', () => {
  it('is a step far wider than both its neighbours, and no step of an even or a coarse sweep', () => {
    expect(Array.from(frequencyHz, (_, i) => i).filter((i) => isGap(frequencyHz, i))).toEqual([20]);
    for (const whole of [grid(1e6, 30e6, 101), Float64Array.of(1e6, 2e6, 30e6), Float64Array.of(1e6, 30e6)]) {
      expect(Array.from(whole, (_, i) => isGap(whole, i))).not.toContain(true);
    }
  });

  it('holds no crossing of X, though its sign changes across', () => {
    expect(findResonances(sweep).map(({ kind }) => kind)).toEqual(['series', 'series']);
  });

  it('covers nothing of a band that lies in it, and only its measured part of another', () => {
    expect(summariseBand(sweep, band(10.1e6, 10.15e6))).toBeNull();
    expect(summariseBand(sweep, band(7e6, 7.2e6))).toMatchObject({ toHz: 7.1e6, wholeBand: false });
    expect(summariseBand(sweep, band(7e6, 7.1e6))).toMatchObject({ wholeBand: true });
    expect(summariseBand(sweep, band(7e6, 14.2e6))).toMatchObject({ wholeBand: false });
  });

  it('leaves dips open on both its sides', () => {
    expect(swrDips(sweep, 2).map(({ fromHz, toHz }) => [fromHz, toHz])).toEqual([
      [7e6, 7.1e6],
      [14e6, 14.2e6],
    ]);
    expect(swrDips(sweep, 2)[0]?.openAbove).toBe(true);
    expect(swrDips(sweep, 2)[1]?.openBelow).toBe(true);
  });
});
