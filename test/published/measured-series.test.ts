/**
 * Measured series that any proof by sweeps has to survive.
 *
 * Source: public mailing-list report, December 2010: a short top-loaded 160 m vertical (Rr ≈ 5 Ω) over N = 0 (a rod),
 * 5, 10, 15 radials: R 33, 13, 9, 7 Ω; efficiency 15.2, 38.5, 55.6, 71.4 %; SWR at 50 Ω 1.52, 3.85, 5.56, 7.14.
 * Status: published.
 * Source: T. Rauch, public mailing-list report, December 2006: quarter-wave radials on the ground at 7 MHz, N = 4, 16,
 * 32: R 99.0, 58.4, 53.7 Ω; field −4.75, −1.50, 0 dB. Status: published.
 * Source: public report: 160 m, 50 ft radials in dry clay: two rods 85 Ω at 1.944 MHz, 4 radials 42 Ω at 1.819 MHz, 7
 * and rods 29 Ω at 1.875, 8 and rods 27 Ω at 1.880. Status: published.
 *
 * Tolerance: the digits printed. The sweeps are made up to have just these R at X = 0; Q is ours.
 */
import { describe, expect, it } from 'vitest';
import type { BandComparison } from '../../src/core/proof/compare-visits.ts';
import { overallVerdict, resistanceGain } from '../../src/core/proof/overall.ts';
import { compareStrength } from '../../src/core/proof/strength.ts';
import { grid, seriesCircuit } from '../support/antenna-model.ts';
import { compareSides, side, visitOf } from '../support/compared.ts';
import { expectClose } from '../support/expect-close.ts';

const TOP_BAND = { band: '160m', fromHz: 1.81e6, toHz: 2e6 };
const FORTY = { band: '40m', fromHz: 7e6, toHz: 7.2e6 };

function compare(
  before: readonly [resistanceOhm: number, resonanceHz: number],
  after: readonly [resistanceOhm: number, resonanceHz: number],
  band = FORTY,
): BandComparison {
  const frequencyHz = grid(band.fromHz * 0.9, band.toHz * 1.1, 121);
  const visit = ([resistanceOhm, resonanceHz]: readonly [number, number]) => {
    const sweep = seriesCircuit(
      { resistanceOhm, resonanceHz, qualityFactor: 300 / resistanceOhm },
      frequencyHz,
    );
    return visitOf([sweep, sweep, sweep]);
  };
  const sides = { before: side(visit(before)), after: side(visit(after)) };
  return compareSides(sides, { band, antennaKind: 'quarter-wave' });
}

function measure(comparison: BandComparison, name: string) {
  return comparison.measures.find((found) => found.measure === name);
}

describe('the short vertical: the SWR gets worse while the antenna gets better', () => {
  const series = [
    { r: 33, efficiency: 0.152, swr: 1.52 },
    { r: 13, efficiency: 0.385, swr: 3.85 },
    { r: 9, efficiency: 0.556, swr: 5.56 },
    { r: 7, efficiency: 0.714, swr: 7.14 },
  ];
  it.each(series.slice(1).map((now, i) => [series[i] as (typeof series)[0], now] as const))(
    'from %o to %o',
    (before, after) => {
      const found = compare([before.r, 1.87e6], [after.r, 1.87e6], TOP_BAND);
      expectClose(measure(found, 'minSwr')?.before.value, before.swr, { absolute: 0.006 });
      expectClose(measure(found, 'minSwr')?.after.value, after.swr, { absolute: 0.006 });
      expect(measure(found, 'minSwr')?.verdict).toBe('worse');
      expect(measure(found, 'resistanceAtResonanceOhm')?.verdict).toBe('improved');
      const { verdict, resistanceGainDb } = overallVerdict(found, null);
      expect(verdict).toBe('improved');
      // Here Rr stays, so that the ratio of R is the gain.
      expectClose(resistanceGainDb, 10 * Math.log10(after.efficiency / before.efficiency), {
        absolute: 0.02,
      });
    },
  );
});

describe('7 MHz: the resistance understates the gain in the field', () => {
  const PLACES = ['a', 'b', 'c', 'd', 'e', 'f'];
  const levels = (levelDb: number) => PLACES.map((place) => ({ place, levelDb, powerW: 100 }));
  const series = [
    { n: 4, r: 99, fieldDb: -4.75, byResistanceDb: -2.66 },
    { n: 16, r: 58.4, fieldDb: -1.5, byResistanceDb: -0.36 },
    { n: 32, r: 53.7, fieldDb: 0, byResistanceDb: 0 },
  ];
  const last = series[2] as (typeof series)[0];

  it.each(series)('$n radials', ({ r, byResistanceDb }) => {
    expectClose(-(resistanceGain(r, last.r) ?? Number.NaN), byResistanceDb, { absolute: 0.006 });
  });

  it.each([
    [0, 1],
    [1, 2],
  ])('step %i to %i: strength outranks, both agree, and the resistance tells less', (from, to) => {
    const [before, after] = [series[from], series[to]] as [typeof last, typeof last];
    const found = compare([before.r, 7.1e6], [after.r, 7.1e6]);
    const strength = compareStrength(levels(before.fieldDb), levels(after.fieldDb));
    const overall = overallVerdict(found, strength);
    expect(overall).toMatchObject({ verdict: 'improved', basis: 'received strength', agree: true });
    expectClose(strength.medianDb, after.fieldDb - before.fieldDb, { absolute: 1e-9 });
    expect(overall.resistanceGainDb).toBeLessThan((strength.medianDb ?? 0) - 0.9);
  });
});

describe('dry clay: the resonance moves, and not one way, so that each sweep counts at its own X = 0', () => {
  const steps = [
    [85, 1.944e6],
    [42, 1.819e6],
    [29, 1.875e6],
    [27, 1.88e6],
  ] as const;
  it.each([0, 1, 2])('step %i', (i) => {
    const [before, after] = [steps[i], steps[i + 1]] as [
      readonly [number, number],
      readonly [number, number],
    ];
    const found = compare(before, after, TOP_BAND);
    expectClose(measure(found, 'resistanceAtResonanceOhm')?.difference.value, after[0] - before[0], {
      absolute: 0.01,
    });
    expectClose(measure(found, 'resonanceHz')?.difference.value, after[1] - before[1], { absolute: 100 });
    expect(measure(found, 'resistanceAtResonanceOhm')?.verdict).toBe('improved');
  });
});
