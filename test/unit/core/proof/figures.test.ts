import { describe, expect, it } from 'vitest';
import { figuresOf, resonanceFor } from '../../../../src/core/proof/figures.ts';
import { createScalarSweep, createSweep } from '../../../../src/core/sweep/sweep.ts';
import { grid, seriesCircuit } from '../../../support/antenna-model.ts';
import { BAND } from '../../../support/compared.ts';
import { expectClose } from '../../../support/expect-close.ts';

describe('figuresOf', () => {
  const f = grid(6e6, 8.2e6, 441);
  const sweep = seriesCircuit({ resistanceOhm: 40, resonanceHz: 7.12e6, qualityFactor: 10 }, f);
  const figures = figuresOf(sweep, BAND);

  it('takes R, resonance and Q at the sweep’s own X = 0', () => {
    expectClose(figures.resonanceHz, 7.12e6, { relative: 1e-6 });
    expectClose(figures.resistanceAtResonanceOhm, 40, { relative: 1e-9 });
    expectClose(figures.qualityFactor, 10, { relative: 1e-3 });
  });

  it('takes the SWR figures over the band, and the bandwidth beyond its edges', () => {
    expectClose(figures.minSwr, 1.25, { relative: 1e-4 });
    // |Γ| = 1/3 with R = 40 in 50: x² = (1/9·90² − 10²)/(1 − 1/9), then X = 40·10·(f/f0 − f0/f).
    const x = Math.sqrt((90 ** 2 / 9 - 100) / (1 - 1 / 9));
    expectClose(figures.swr2BandwidthHz, (7.12e6 * x) / 400, { relative: 1e-3 });
  });

  it('gives null for a bandwidth that the sweep cuts off, and for one that there is not', () => {
    const cut = seriesCircuit(
      { resistanceOhm: 40, resonanceHz: 7.12e6, qualityFactor: 10 },
      grid(7.05e6, 8e6, 50),
    );
    expect(figuresOf(cut, BAND).swr2BandwidthHz).toBeNull();
    const low = seriesCircuit({ resistanceOhm: 15, resonanceHz: 7.12e6, qualityFactor: 10 }, f);
    expect(figuresOf(low, BAND).swr2BandwidthHz).toBeNull();
  });

  it('gives of a scalar sweep the match and nothing of resonance', () => {
    const scalar = createScalarSweep({
      frequencyHz: f,
      swr: f.map((hz) => 1.2 + Math.abs(hz - 7.1e6) / 5e5),
    });
    const found = figuresOf(scalar, BAND);
    expectClose(found.minSwr, 1.2, { absolute: 1e-9 });
    expect([found.resonanceHz, found.resistanceAtResonanceOhm, found.qualityFactor]).toEqual([
      null,
      null,
      null,
    ]);
  });
});

describe('resonanceFor', () => {
  const f = grid(5.5e6, 9e6, 351);
  const sweepOf = (reactance: (mhz: number) => number) =>
    createSweep({
      frequencyHz: f,
      resistanceOhm: f.map(() => 40),
      reactanceOhm: f.map((hz) => reactance(hz / 1e6)),
    });

  it('prefers the rising crossing to a falling one that is nearer', () => {
    const found = resonanceFor(
      sweepOf((m) => -(m - 6.5) * (m - 7.15) * 100),
      BAND,
    );
    expectClose(found?.frequencyHz, 6.5e6, { absolute: 2e3 });
    expect(found?.kind).toBe('series');
  });

  it('takes the crossing in the band, else the nearest to it, and none that is far away', () => {
    expectClose(
      resonanceFor(
        sweepOf((m) => 100 * (m - 6.6)),
        BAND,
      )?.frequencyHz,
      6.6e6,
      { absolute: 1e3 },
    );
    expectClose(
      resonanceFor(
        sweepOf((m) => 100 * (m - 6.6) * (m - 6.9) * (m - 7.15)),
        BAND,
      )?.frequencyHz,
      7.15e6,
      {
        absolute: 1e3,
      },
    );
    expect(
      resonanceFor(
        sweepOf((m) => 100 * (m - 5.2)),
        BAND,
      ),
    ).toBeNull();
  });
});
