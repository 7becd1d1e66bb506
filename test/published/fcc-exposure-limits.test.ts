/**
 * Source: 47 CFR 1.1310(e)(1), table 1, as amended by 85 FR 18145 (1 April 2020). Status: published.
 * Source: the formulas of the same table: its edges and its rounding. Status: computed.
 *
 * Tolerance: half the last printed digit; at the edges what the rounding of the table leaves.
 */
import { describe, expect, it } from 'vitest';
import { findLimitSet, limitsAt } from '../../src/core/safety/limits.ts';
import { expectClose } from '../support/expect-close.ts';

/** Figures in the table are exact; the tolerance is that of binary arithmetic. */
const EXACT = { relative: 1e-12 };

function averaged(id: string, frequencyMhz: number) {
  return limitsAt(findLimitSet(id), frequencyMhz * 1e6).averaged;
}

describe('47 CFR 1.1310(e)(1), table 1', () => {
  it.each([
    // set, MHz, V/m, A/m, W/m² (the table has mW/cm², of which one is 10 W/m²)
    ['fcc-general', 1.0, 614, 1.63, 1000],
    ['fcc-general', 10, 82.4, 0.219, 18],
    ['fcc-general', 50, 27.5, 0.073, 2],
    ['fcc-controlled', 2, 614, 1.63, 1000],
    ['fcc-controlled', 10, 184.2, 0.489, 90],
    ['fcc-controlled', 50, 61.4, 0.163, 10],
  ])('%s at %d MHz allows %d V/m, %d A/m and %d W/m²', (id, mhz, electric, magnetic, density) => {
    const limits = averaged(id, mhz);
    expectClose(limits.electricVPerM, electric, EXACT);
    expectClose(limits.magneticAPerM, magnetic, EXACT);
    expectClose(limits.powerDensityWPerM2, density, EXACT);
  });

  it.each([
    // MHz; general population V/m, A/m, mW/cm²; occupational V/m, mW/cm²: computed from the table, to the digits shown
    [1.9, 433.68, 1.1526, 49.861, 614.0, 100.0],
    [3.6, 228.89, 0.6083, 13.889, 511.7, 69.444],
    [5.36, 153.73, 0.4086, 6.265, 343.7, 31.327],
    [7.1, 116.06, 0.3085, 3.571, 259.4, 17.854],
    [10.12, 81.42, 0.2164, 1.758, 182.0, 8.788],
    [14.2, 58.03, 0.1542, 0.893, 129.7, 4.463],
    [18.1, 45.52, 0.121, 0.549, 101.8, 2.747],
    [21.2, 38.87, 0.1033, 0.4, 86.9, 2.002],
    [24.94, 33.04, 0.0878, 0.289, 73.9, 1.447],
    [28.5, 28.91, 0.0768, 0.222, 64.6, 1.108],
    [50.1, 27.5, 0.073, 0.2, 61.4, 1.0],
  ])('comes on the amateur bands, at %d MHz, to %d V/m', (mhz, electric, magnetic, density, occE, occS) => {
    const general = averaged('fcc-general', mhz);
    const controlled = averaged('fcc-controlled', mhz);
    // Half of the last digit shown.
    expectClose(general.electricVPerM, electric, { absolute: 0.005 });
    expectClose(general.magneticAPerM, magnetic, { absolute: 0.00005 });
    expectClose((general.powerDensityWPerM2 ?? 0) / 10, density, { absolute: 0.0005 });
    expectClose(controlled.electricVPerM, occE, { absolute: 0.05 });
    expectClose((controlled.powerDensityWPerM2 ?? 0) / 10, occS, { absolute: 0.0005 });
  });

  it.each([
    ['fcc-general', 1.34],
    ['fcc-general', 30],
    ['fcc-controlled', 3],
    ['fcc-controlled', 30],
  ])('%s has no gap and no jump over half a per cent at its edge of %d MHz', (id, mhz) => {
    // The table rounds: 824/1.34 = 614.93 stands beside 614, and 2.19/1.34 = 1.634 beside 1.63.
    const below = averaged(id, mhz * (1 - 1e-9));
    const above = averaged(id, mhz * (1 + 1e-9));
    for (const level of ['electricVPerM', 'magneticAPerM', 'powerDensityWPerM2'] as const) {
      expectClose(above[level], below[level] ?? Number.NaN, { relative: 5e-3 });
    }
  });

  it('takes the stricter of two rows at their shared edge: 614 V/m, not 614.93, at 1.34 MHz', () => {
    expect(averaged('fcc-general', 1.34).electricVPerM).toBe(614);
  });

  it.each(['fcc-general', 'fcc-controlled'])('%s: its three columns are one plane wave', (id) => {
    // S[mW/cm²] = E²/3770 = 37.7 H² (OET Bulletin 65); the columns agree within 0.9 % by their rounding.
    for (const mhz of [1.9, 3.6, 7.1, 14.2, 28.5, 50.1]) {
      const { electricVPerM, magneticAPerM, powerDensityWPerM2 } = averaged(id, mhz);
      expectClose((electricVPerM ?? 0) ** 2 / 377, powerDensityWPerM2 ?? Number.NaN, { relative: 9e-3 });
      expectClose((magneticAPerM ?? 0) ** 2 * 377, powerDensityWPerM2 ?? Number.NaN, { relative: 9e-3 });
    }
  });

  it('averages over 30 minutes for the public and 6 for the informed', () => {
    expect(findLimitSet('fcc-general').averagingMinutes).toBe(30);
    expect(findLimitSet('fcc-controlled').averagingMinutes).toBe(6);
  });
});
