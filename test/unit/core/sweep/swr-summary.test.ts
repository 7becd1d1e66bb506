import { describe, expect, it } from 'vitest';
import { createScalarSweep, createSweep } from '../../../../src/core/sweep/sweep.ts';
import { bestSwr, dipAround, summariseBand, swrDips } from '../../../../src/core/sweep/swr-summary.ts';
import { grid, seriesCircuit } from '../../../support/antenna-model.ts';
import { expectClose } from '../../../support/expect-close.ts';

const circuit = { resistanceOhm: 50, resonanceHz: 7.1e6, qualityFactor: 10 };
const BAND = { band: '40m', fromHz: 7.0e6, toHz: 7.2e6 };

describe('the SWR of a sweep', () => {
  it('finds the dip of a matched circuit between two points', () => {
    const best = bestSwr(seriesCircuit(circuit, grid(6.9e6, 7.33e6, 12)));
    expectClose(best.frequencyHz, 7.1e6, { absolute: 300 });
    expectClose(best.swr, 1, { absolute: 1e-3 });
  });

  it('has the 2:1 bandwidth of a matched series circuit: 1/(√2 Q), to a coarse grid’s chord error', () => {
    const dips = swrDips(seriesCircuit(circuit, grid(6.5e6, 7.7e6, 241)), 2);
    expect(dips).toHaveLength(1);
    const dip = dipAround(dips, 7.1e6);
    expectClose((dip?.toHz ?? 0) - (dip?.fromHz ?? 0), (7.1e6 * Math.SQRT1_2) / 10, { relative: 1e-3 });
    expect([dip?.openBelow, dip?.openAbove]).toEqual([false, false]);
  });

  it('leaves the bandwidth open where the sweep ends first', () => {
    const [dip] = swrDips(seriesCircuit(circuit, grid(7.05e6, 7.7e6, 100)), 2);
    expect([dip?.openBelow, dip?.openAbove]).toEqual([true, false]);
  });

  it('gives several dips in pieces', () => {
    const x = [200, 0, 200, 0, 200];
    const sweep = createSweep({
      frequencyHz: Float64Array.from(x, (_, i) => (i + 1) * 1e6),
      resistanceOhm: Float64Array.from(x, () => 50),
      reactanceOhm: Float64Array.from(x),
    });
    expect(swrDips(sweep, 2)).toHaveLength(2);
  });

  it('has no SWR where the antenna seems to give power back', () => {
    const sweep = createSweep({
      frequencyHz: Float64Array.from([7.0e6, 7.1e6, 7.2e6]),
      resistanceOhm: Float64Array.from([50, -1, 50]),
      reactanceOhm: Float64Array.from([0, 80, 0]),
    });
    const summary = summariseBand(sweep, BAND);
    expect(summary).toMatchObject({
      worstSwr: null,
      worstReturnLossDb: null,
      bestSwr: 1,
      pointsWithoutSwr: 1,
    });
  });

  it('looks at no more of a band than the sweep covers, and says so', () => {
    const summary = summariseBand(seriesCircuit(circuit, grid(7.05e6, 7.5e6, 91)), BAND);
    expect(summary).toMatchObject({ fromHz: 7.05e6, toHz: 7.2e6, wholeBand: false });
    expect(summariseBand(seriesCircuit(circuit, grid(8e6, 9e6, 11)), BAND)).toBeNull();
  });

  it('reads worst and best at the interpolated band edges', () => {
    const sweep = seriesCircuit(circuit, grid(6.93e6, 7.31e6, 39));
    const summary = summariseBand(sweep, BAND);
    const edgeX = 500 * (7.1 / 7.0 - 7.0 / 7.1);
    const size = edgeX / Math.hypot(100, edgeX);
    expectClose(summary?.worstSwr, (1 + size) / (1 - size), { relative: 1e-3 });
    expectClose(summary?.bestSwrHz, 7.1e6, { absolute: 1000 });
  });

  it('leaves a dip open at a point whose SWR was not given', () => {
    const sweep = createScalarSweep({
      frequencyHz: Float64Array.of(7.0e6, 7.1e6, 7.2e6, 7.3e6, 7.4e6, 7.5e6),
      swr: Float64Array.of(1.5, 1.6, Number.NaN, 1.7, 1.8, 3),
    });
    const dips = swrDips(sweep, 2);
    expect(dips.map((dip) => [dip.fromHz, dip.openBelow, dip.openAbove])).toEqual([
      [7.0e6, true, true],
      [7.3e6, true, false],
    ]);
    expect(dips[0]?.toHz).toBe(7.1e6);
  });

  it('serves a scalar sweep alike', () => {
    const frequencyHz = grid(7.0e6, 7.2e6, 5);
    const sweep = createScalarSweep({ frequencyHz, swr: Float64Array.from([3, 2, 1.5, 2, 3]) });
    expectClose(bestSwr(sweep).swr, 1.5, { relative: 1e-12 });
    expect(bestSwr(sweep).frequencyHz).toBe(7.1e6);
    const [dip] = swrDips(sweep, 2);
    expectClose((dip?.toHz ?? 0) - (dip?.fromHz ?? 0), 0.1e6, { relative: 1e-9 });
    expectClose(summariseBand(sweep, BAND)?.worstSwr, 3, { relative: 1e-12 });
  });
});
