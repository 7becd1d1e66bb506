import { describe, expect, it } from 'vitest';
import type { Radial } from '../../../../src/core/record.ts';
import { assessSafety } from '../../../../src/core/safety/assess.ts';
import { plannedFieldAtPlaces } from '../../../../src/core/safety/planned-ends.ts';
import type { Point, Site } from '../../../../src/core/site.ts';
import { parseSite } from '../../../../src/logbook/site-file.ts';
import { expectClose } from '../../../support/expect-close.ts';
import { SQUARE_LOT } from '../../../support/logbooks.ts';

const site = (peakPower: string, baseHeight: string, at: Point): Site =>
  parseSite(
    JSON.stringify({
      version: 1,
      name: 'test',
      antenna: { kind: 'quarter-wave', height: '10.1m', diameter: '25mm', bands: ['40m'], baseHeight },
      radials: { diameter: '1.6mm', insulated: true, depth: '20mm' },
      lot: {
        ...SQUARE_LOT,
        places: [{ name: 'bench', at: [`${20 + at[0]}m`, `${20 + at[1]}m`] }],
      },
      transmit: [{ band: '40m', peakPower, mode: 'cw', onAirFraction: 1 }],
      limits: 'icnirp-2020-general',
    }),
    'site.json',
  );

const radial = (number: number, bearingDeg: number): Radial => ({
  number,
  lengthM: 10,
  bearingDeg,
  route: null,
  since: null,
});
const fail = (): never => {
  throw new Error('nothing is told of the place');
};
const PAIR = [radial(33, 0), radial(34, 180)];

describe('the field of planned radials at places', () => {
  it('asks for what safety will ask for while the first of them lies, and once all do', () => {
    for (const [powerW, east] of [
      [1500, 0.4],
      [1500, 12],
      [100, 0.4],
      [1, 0.4],
    ] as const) {
      const there = site(`${powerW}W`, '0m', [east, 5]);
      const found = plannedFieldAtPlaces(there, PAIR, []);
      const [first, all] = [PAIR.slice(0, 1), PAIR].map((radials) => {
        const state = { since: null, radials, wireM: 10 * radials.length };
        return assessSafety(there, { fieldState: state }).bands[0]?.places[0];
      });
      const byWire = first?.decidingRadial !== null && first?.verdict !== 'clear';
      expect(found.map(({ maxPowerW }) => maxPowerW)).toEqual(byWire ? [first?.maxPowerW] : []);
      expect(found.map(({ onceAllLie }) => onceAllLie.maxPowerW)).toEqual(byWire ? [all?.maxPowerW] : []);
    }
  });

  it('counts the wires that share the current: many ask for less', () => {
    const hot = site('1500W', '0m', [1, 5]);
    expect(plannedFieldAtPlaces(hot, PAIR, [])).toMatchObject([{ radial: 33, distanceM: 1, keepOffM: null }]);
    const laid = Array.from({ length: 58 }, (_, i) => radial(i + 40, 3 + 6 * i));
    const [most = { maxPowerW: Number.POSITIVE_INFINITY }] = plannedFieldAtPlaces(hot, PAIR, laid);
    expect(most.maxPowerW ?? 0).toBeGreaterThan(plannedFieldAtPlaces(hot, PAIR, [])[0]?.maxPowerW ?? 0);
  });

  it('tells of a place that only the first of many wires overreaches', () => {
    const there = site('100W', '0m', [1.2, 5]);
    const fan = Array.from({ length: 20 }, (_, i) => radial(i + 1, 18 * i));
    const [{ radial: number, maxPowerW, onceAllLie } = fail()] = plannedFieldAtPlaces(there, fan, []);
    expect(maxPowerW).toBeLessThan(100);
    expect(onceAllLie.maxPowerW).toBeGreaterThan(100);
    // The current is shared by twenty, and so the field of each falls to a twentieth.
    expectClose(onceAllLie.maxPowerW ?? 0, 400 * (maxPowerW ?? 0), { relative: 0.05 });
    expect(number).toBe(2);
  });

  it('reaches farther from a raised end than an arm does', () => {
    const near = plannedFieldAtPlaces(site('1500W', '2.4m', [0, 11.4]), PAIR, []);
    expect(near).toMatchObject([{ place: 'bench', radial: 33, peakPowerW: 1500, mode: 'cw', band: '40m' }]);
    const [{ distanceM, keepOffM } = { distanceM: 0, keepOffM: 0 }] = near;
    expect(distanceM).toBeGreaterThanOrEqual(1.4);
    expect(distanceM).toBeLessThan(keepOffM ?? 0);
    expect(plannedFieldAtPlaces(site('5W', '2.4m', [0, 11.4]), PAIR, [])).toEqual([]);
  });

  it('is not told where the site names no power', () => {
    expect(plannedFieldAtPlaces({ ...site('1500W', '0m', [0.4, 5]), transmit: [] }, PAIR, [])).toEqual([]);
  });
});
