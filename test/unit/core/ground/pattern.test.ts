import { describe, expect, test } from 'vitest';
import { azimuthPattern, azimuthPatterns } from '../../../../src/core/ground/pattern.ts';
import { sectorField } from '../../../../src/core/ground/radial-field.ts';
import { expectClose } from '../../../support/expect-close.ts';
import { userErrorOf } from '../../../support/user-error-of.ts';

const azimuthDeg = Float64Array.from({ length: 360 }, (_, i) => i);
const system = {
  monopole: { heightM: 10, radiusM: 1e-3 },
  soil: { conductivitySPerM: 0.005, relativePermittivity: 13 },
  field: sectorField([{ fromDeg: 20, toDeg: 140, count: 20, lengthM: 9 }], 1e-3),
  frequencyHz: 7.1e6,
};

describe('azimuthPatterns', () => {
  test('are relative to the mean power around the circle at each elevation', () => {
    for (const { relativeDb } of azimuthPatterns(system, [5, 25, 60], azimuthDeg)) {
      const mean = relativeDb.reduce((sum, db) => sum + 10 ** (db / 10), 0) / relativeDb.length;
      expectClose(mean, 1, { absolute: 1e-9 });
    }
  });

  test('lean towards the middle of the wires at low elevation', () => {
    const [low] = azimuthPatterns(system, [10], azimuthDeg);
    const strongest = low?.relativeDb.indexOf(Math.max(...low.relativeDb));
    expectClose(strongest, 80, { absolute: 2 });
  });

  test('agree with one elevation asked for alone', () => {
    const [, at25] = azimuthPatterns(system, [5, 25], azimuthDeg);
    const alone = azimuthPattern({ ...system, elevationDeg: 25, azimuthDeg });
    alone.forEach((db, i) => {
      expectClose(db, at25?.relativeDb[i] ?? Number.NaN, { absolute: 1e-4 });
    });
  });

  test('do not trip over two wires on one bearing', () => {
    const doubled = { wires: [...system.field.wires, ...system.field.wires] };
    const pattern = azimuthPattern({ ...system, field: doubled, elevationDeg: 10, azimuthDeg });
    expect(pattern.every(Number.isFinite)).toBe(true);
  });

  test.each([0, 90, -5, Number.NaN])('refuse an elevation of %f°', (elevationDeg) => {
    expect(userErrorOf(() => azimuthPattern({ ...system, elevationDeg, azimuthDeg }))).toEqual([
      'bad-elevation',
      'elevation',
    ]);
  });

  test('need a radial', () => {
    expect(userErrorOf(() => azimuthPatterns({ ...system, field: { wires: [] } }, [10], azimuthDeg))).toEqual(
      ['no-radials', 'radials.count'],
    );
  });
});
