import { describe, expect, it } from 'vitest';
import { refined } from '../../../../src/core/proof/refined.ts';
import { visitInBand } from '../../../../src/core/proof/visit-in-band.ts';
import { createScalarSweep, createSweep } from '../../../../src/core/sweep/sweep.ts';
import { grid } from '../../../support/antenna-model.ts';
import { BAND, vertical } from '../../../support/compared.ts';
import { expectClose } from '../../../support/expect-close.ts';

describe('refined', () => {
  it('puts a point in the middle of each step, exactly on a cubic', () => {
    const f = grid(1, 6, 6);
    const cubic = (x: number): number => 2 * x ** 3 - x * x + 4;
    const found = refined(
      createSweep({ frequencyHz: f, resistanceOhm: f.map(cubic), reactanceOhm: f.map(cubic) }),
    );
    expect(found.frequencyHz).toHaveLength(11);
    found.frequencyHz.subarray(2, 9).forEach((x, i) => {
      expectClose(found.resistanceOhm[i + 2], cubic(x), { relative: 1e-12 });
    });
  });

  it('keeps what a scalar sweep does not know unknown', () => {
    const found = refined(
      createScalarSweep({ frequencyHz: grid(1, 4, 4), swr: Float64Array.of(2, Number.NaN, 2, 3) }),
    );
    expect(found.swr[2]).toBeNaN();
    expectClose(found.swr[6], 3, { relative: 1e-12 });
    expectClose(found.swr[0], 2, { relative: 1e-12 });
  });
});

describe('figures of a coarse grid', () => {
  const ofGrid = (points: number) =>
    visitInBand([vertical(45, 7.1e6, grid(6.2e6, 8e6, points))], BAND, 0.005);

  it('have the mean return loss of a fine one, wherever the points fall on its peak', () => {
    const truth = ofGrid(2001).figures.meanReturnLossDb ?? Number.NaN;
    for (const points of [10, 13, 19, 31, 91]) {
      expectClose(ofGrid(points).figures.meanReturnLossDb, truth, { absolute: 0.05 });
    }
  });

  it('carry an uncertainty of the size of the error that the grid makes', () => {
    const truth = ofGrid(2001).figures;
    for (const measure of ['resonanceHz', 'worstSwr', 'swr2BandwidthHz'] as const) {
      const coarse = ofGrid(10);
      const error = Math.abs((coarse.figures[measure] ?? Number.NaN) - (truth[measure] ?? Number.NaN));
      expect(error).toBeLessThan(4 * coarse.gridUncertainty(measure) + 1e-4 * (truth[measure] ?? 0));
      expect(ofGrid(181).gridUncertainty(measure)).toBeLessThan(1e-4 * (truth[measure] ?? 0));
    }
  });
});
