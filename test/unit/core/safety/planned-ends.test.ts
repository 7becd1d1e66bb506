import { describe, expect, it } from 'vitest';
import type { Radial } from '../../../../src/core/record.ts';
import { assessSafety } from '../../../../src/core/safety/assess.ts';
import { plannedFieldAtPlaces } from '../../../../src/core/safety/planned-ends.ts';
import type { Point, Site } from '../../../../src/core/site.ts';
import { parseSite } from '../../../../src/logbook/site-file.ts';

const site = (peakPower: string, baseHeight: string, at: Point): Site =>
  parseSite(
    JSON.stringify({
      version: 1,
      name: 'test',
      antenna: { kind: 'quarter-wave', height: '10.1m', diameter: '25mm', bands: ['40m'], baseHeight },
      radials: { diameter: '1.6mm', insulated: true, depth: '20mm' },
      lot: {
        outline: [
          ['0m', '0m'],
          ['40m', '0m'],
          ['40m', '40m'],
          ['0m', '40m'],
        ],
        base: ['20m', '20m'],
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
const PAIR = [radial(33, 0), radial(34, 180)];

describe('the field of planned radials at places', () => {
  it('asks for what safety will ask for once they lie there', () => {
    for (const [powerW, east] of [
      [1500, 0.4],
      [1500, 8],
      [100, 0.4],
      [1, 0.4],
    ] as const) {
      const there = site(`${powerW}W`, '0m', [east, 5]);
      const found = plannedFieldAtPlaces(there, PAIR, []);
      const state = { since: null, radials: PAIR, wireM: 20 };
      const judged = assessSafety(there, { fieldState: state }).bands[0]?.places[0];
      const byWire = judged?.decidingRadial !== null && judged?.verdict !== 'clear';
      expect(found.map(({ maxPowerW }) => maxPowerW)).toEqual(byWire ? [judged?.maxPowerW] : []);
    }
  });

  it('counts the wires that share the current: many ask for less', () => {
    const hot = site('1500W', '0m', [1, 5]);
    expect(plannedFieldAtPlaces(hot, PAIR, [])).toMatchObject([{ radial: 33, distanceM: 1, keepOffM: null }]);
    const laid = Array.from({ length: 58 }, (_, i) => radial(i + 40, 3 + 6 * i));
    const [most = { maxPowerW: Number.POSITIVE_INFINITY }] = plannedFieldAtPlaces(hot, PAIR, laid);
    expect(most.maxPowerW ?? 0).toBeGreaterThan(plannedFieldAtPlaces(hot, PAIR, [])[0]?.maxPowerW ?? 0);
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
