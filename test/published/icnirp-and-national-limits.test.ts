/**
 * Source: ICNIRP, "Guidelines for limiting exposure to electromagnetic fields (100 kHz to 300 GHz)", Health Physics
 * 118(5), 483–524 (2020), table 5. Status: published for the general public; for workers, memory.
 * Source: ICNIRP, "Guidelines for limiting exposure to time-varying electric and magnetic fields (1 Hz to 100 kHz)",
 * Health Physics 99(6), 818–836 (2010), reference levels 3 kHz to 10 MHz. Status: memory.
 * Source: Health Canada, Safety Code 6 (2015). Status: memory; its continuity at the edges is computed.
 * Source: Council Recommendation 1999/519/EC, annex III. Status: memory.
 * Source: Directive 2013/35/EU, electric field, as the Norwegian regulation gives it. Status: published.
 *
 * Tolerance: half of the digits shown; at the edges the rounding of each source's own figures. Spot values are computed
 * from the formulas, by a program that shares nothing with this one.
 */
import { describe, expect, it } from 'vitest';
import { findLimitSet, limitsAt } from '../../src/core/safety/limits.ts';
import { expectClose } from '../support/expect-close.ts';

function at(id: string, mhz: number) {
  return limitsAt(findLimitSet(id), mhz * 1e6);
}

describe('ICNIRP 2020, general public', () => {
  it.each([
    [1.9, 191.42, 1.1579],
    [3.6, 122.38, 0.6111],
    [5.36, 92.62, 0.4104],
    [7.1, 76.07, 0.3099],
    [10.12, 59.36, 0.2174],
    [14.2, 46.83, 0.1549],
    [18.1, 39.51, 0.1215],
    [21.2, 35.37, 0.1038],
    [24.94, 31.57, 0.0882],
    [28.5, 28.76, 0.0772],
    [50.1, 27.7, 0.073],
  ])('allows at %d MHz %d V/m and %d A/m', (mhz, electric, magnetic) => {
    // Half of the last digit printed.
    expectClose(at('icnirp-2020-general', mhz).averaged.electricVPerM, electric, { absolute: 0.005 });
    expectClose(at('icnirp-2020-general', mhz).averaged.magneticAPerM, magnetic, { absolute: 0.00005 });
  });

  it('has no power-density level below 30 MHz, and 2 W/m² above', () => {
    expect(at('icnirp-2020-general', 28.5).averaged.powerDensityWPerM2).toBeNull();
    expect(at('icnirp-2020-general', 50).averaged.powerDensityWPerM2).toBe(2);
  });

  it('is continuous at 30 MHz to the rounding of the table: 27.74 beside 27.7, 0.0733 beside 0.073', () => {
    const below = at('icnirp-2020-general', 30 * (1 - 1e-9)).averaged;
    const above = at('icnirp-2020-general', 30 * (1 + 1e-9)).averaged;
    expectClose(below.electricVPerM, 27.742, { absolute: 0.0005 });
    expectClose(below.magneticAPerM, 0.07333, { absolute: 0.000005 });
    expectClose(above.electricVPerM, below.electricVPerM ?? Number.NaN, { relative: 2e-3 });
    expectClose(above.magneticAPerM, below.magneticAPerM ?? Number.NaN, { relative: 5e-3 });
  });

  it('stands beside levels for nerve stimulation below 10 MHz that hold at every moment', () => {
    expect(at('icnirp-2020-general', 7.1).instantaneous).toMatchObject({
      electricVPerM: 83,
      magneticAPerM: 21,
    });
    expect(at('icnirp-2020-general', 14.2).instantaneous.electricVPerM).toBeNull();
  });

  it('puts the contact current at 20 mA for the public and 40 mA for workers, 100 kHz to 10 MHz', () => {
    expect(findLimitSet('icnirp-2020-general').contactCurrent).toEqual({
      fromMhz: 0.1,
      toMhz: 10,
      currentA: 0.02,
    });
    expect(findLimitSet('icnirp-2020-occupational').contactCurrent?.currentA).toBe(0.04);
  });
});

describe('ICNIRP 2020, occupational (memory)', () => {
  it('allows 660/f^0.7 V/m and 4.9/f A/m, about √5 times the levels for the public', () => {
    const { electricVPerM, magneticAPerM } = at('icnirp-2020-occupational', 7.1).averaged;
    expectClose(electricVPerM, 167.35, { relative: 1e-4 });
    expectClose(magneticAPerM, 0.6901, { relative: 1e-4 });
    const general = at('icnirp-2020-general', 7.1).averaged;
    // 2.2 and 2.227 as the tables round them, against 2.236.
    expectClose((electricVPerM ?? 0) / (general.electricVPerM ?? 1), Math.sqrt(5), { relative: 0.02 });
    expectClose((magneticAPerM ?? 0) / (general.magneticAPerM ?? 1), Math.sqrt(5), { relative: 0.02 });
  });
});

describe('ICNIRP 2020 above 30 MHz', () => {
  it('allows workers 61 V/m, 0.16 A/m and 10 W/m² (memory)', () => {
    expect(at('icnirp-2020-occupational', 50).averaged).toEqual({
      electricVPerM: 61,
      magneticAPerM: 0.16,
      powerDensityWPerM2: 10,
    });
  });
});

describe('Safety Code 6, controlled (memory)', () => {
  it.each([
    // MHz, V/m and A/m, computed from 193/√f and 1.6/f to 10 MHz, 129.8/f^0.25 and 0.3444/f^0.25 from 20 to 48
    [1.9, 140.02, 0.8421],
    [7.1, 72.43, 0.2254],
    [14.2, 61.4, 0.163],
    [28.5, 56.18, 0.1491],
    [50.1, 49.33, 0.1309],
  ])('allows at %d MHz %d V/m and %d A/m', (mhz, electric, magnetic) => {
    expectClose(at('safety-code-6-controlled', mhz).averaged.electricVPerM, electric, { absolute: 0.005 });
    expectClose(at('safety-code-6-controlled', mhz).averaged.magneticAPerM, magnetic, { absolute: 0.00005 });
  });

  it('is continuous at 10, 20 and 48 MHz to the rounding of its figures', () => {
    for (const mhz of [10, 20, 48]) {
      const below = at('safety-code-6-controlled', mhz * (1 - 1e-9)).averaged;
      const above = at('safety-code-6-controlled', mhz * (1 + 1e-9)).averaged;
      // 193/√10 is 61.03 and 1.6/10 is 0.16, beside 61.4 and 0.163.
      expectClose(above.electricVPerM, below.electricVPerM ?? Number.NaN, { relative: 7e-3 });
      expectClose(above.magneticAPerM, below.magneticAPerM ?? Number.NaN, { relative: 2e-2 });
    }
  });
});

describe('Safety Code 6 (memory)', () => {
  it.each([
    [1.9, 63.12],
    [3.6, 45.85],
    [5.36, 37.58],
    [7.1, 32.65],
    [14.2, 27.46],
    [21.2, 27.06],
    [24.94, 25.99],
    [28.5, 25.13],
    [50.1, 22.06],
  ])('allows the public at %d MHz %d V/m', (mhz, electric) => {
    expectClose(at('safety-code-6-uncontrolled', mhz).averaged.electricVPerM, electric, { absolute: 0.005 });
  });

  it('is continuous at 10, 20 and 48 MHz to the rounding of its figures', () => {
    for (const mhz of [10, 20, 48]) {
      const below = at('safety-code-6-uncontrolled', mhz * (1 - 1e-9)).averaged;
      const above = at('safety-code-6-uncontrolled', mhz * (1 + 1e-9)).averaged;
      expectClose(above.electricVPerM, below.electricVPerM ?? Number.NaN, { relative: 3e-3 });
      expectClose(above.magneticAPerM, below.magneticAPerM ?? Number.NaN, { relative: 3e-3 });
    }
  });
});

describe('European levels', () => {
  it('hold workers to 170 V/m to 3.59 MHz, 610/f to 10 MHz and 61 V/m above (published)', () => {
    const strictest = (mhz: number): number => {
      const { averaged, instantaneous } = at('eu-workers', mhz);
      return Math.min(averaged.electricVPerM ?? Infinity, instantaneous.electricVPerM ?? Infinity);
    };
    expect(strictest(1.9)).toBe(170);
    expect(strictest(3.55)).toBe(170);
    expectClose(strictest(7.1), 610 / 7.1, { relative: 1e-12 });
    expect(strictest(14.2)).toBe(61);
  });

  it('hold the public to 87/√f V/m and 0.73/f A/m to 10 MHz, 28 V/m and 0.073 A/m above (memory)', () => {
    expectClose(at('eu-public', 7.1).averaged.electricVPerM, 32.65, { absolute: 0.005 });
    expectClose(at('eu-public', 7.1).averaged.magneticAPerM, 0.1028, { absolute: 0.00005 });
    expect(at('eu-public', 14.2).averaged).toEqual({
      electricVPerM: 28,
      magneticAPerM: 0.073,
      powerDensityWPerM2: 2,
    });
  });
});
