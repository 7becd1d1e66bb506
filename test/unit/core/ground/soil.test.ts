import { describe, expect, test } from 'vitest';
import { findSoil, MOISTURE_BANDS, NAMED_SOILS } from '../../../../src/core/ground/named-soils.ts';
import {
  isDense,
  soilImpedanceOhm,
  soilSkinDepthM,
  verticalReflection,
} from '../../../../src/core/ground/soil.ts';
import { expectClose } from '../../../support/expect-close.ts';
import { userErrorOf } from '../../../support/user-error-of.ts';

const average = { conductivitySPerM: 0.005, relativePermittivity: 13 };

describe('soil', () => {
  test('that conducts nothing is a pure resistance and has no skin depth', () => {
    const dry = { conductivitySPerM: 0, relativePermittivity: 4 };
    const { re, im } = soilImpedanceOhm(dry, 7e6);
    expectClose(re, 376.7303 / 2, { relative: 1e-6 });
    expectClose(im, 0, { absolute: 1e-9 });
    expect(soilSkinDepthM(dry, 7e6)).toBe(Number.POSITIVE_INFINITY);
  });

  test('as a good conductor has equal parts and the metal formula', () => {
    const sea = { conductivitySPerM: 5, relativePermittivity: 81 };
    const { re, im } = soilImpedanceOhm(sea, 1e6);
    expectClose(im / re, 1, { absolute: 0.002 });
    expectClose(soilSkinDepthM(sea, 1e6), 1 / Math.sqrt(Math.PI * 1e6 * 4e-7 * Math.PI * 5), {
      relative: 1e-3,
    });
  });

  test('reflects −1 at grazing and (n − 1)/(n + 1) straight up', () => {
    const dry = { conductivitySPerM: 0, relativePermittivity: 9 };
    expectClose(verticalReflection(dry, 7e6, 0).re, -1, { absolute: 1e-12 });
    expectClose(verticalReflection(dry, 7e6, Math.PI / 2).re, 0.5, { absolute: 1e-12 });
    // Brewster's angle: tan ψ = 1/n, nothing is reflected.
    expectClose(verticalReflection(dry, 7e6, Math.atan(1 / 3)).re, 0, { absolute: 1e-12 });
  });

  test('is dense or not', () => {
    expect(isDense(average, 7e6)).toBe(true);
    expect(isDense({ conductivitySPerM: 1e-4, relativePermittivity: 3 }, 14e6)).toBe(false);
  });

  test.each([
    [{ ...average, conductivitySPerM: -0.005 }, 7e6, 'not-positive', 'soil.conductivity'],
    [{ ...average, conductivitySPerM: Number.NaN }, 7e6, 'not-positive', 'soil.conductivity'],
    [{ ...average, relativePermittivity: 0.5 }, 7e6, 'bad-permittivity', 'soil.permittivity'],
    [average, -7e6, 'not-positive', 'frequency'],
  ])('refuses %o at %f Hz', (soil, frequencyHz, code, field) => {
    expect(userErrorOf(() => soilImpedanceOhm(soil, frequencyHz))).toEqual([code, field]);
    expect(userErrorOf(() => soilSkinDepthM(soil, frequencyHz))).toEqual([code, field]);
  });
});

describe('named soils', () => {
  test('have names of their own, a source and a status', () => {
    expect(new Set(NAMED_SOILS.map(({ name }) => name)).size).toBe(NAMED_SOILS.length);
    for (const { source, status } of NAMED_SOILS) {
      expect(source).not.toBe('');
      expect(['published', 'memory']).toContain(status);
    }
    expect(findSoil('peat')).toBeUndefined();
  });

  test('moisture moves both figures up', () => {
    for (const { driest, wettest } of MOISTURE_BANDS) {
      expect(wettest.conductivitySPerM).toBeGreaterThan(driest.conductivitySPerM);
      expect(wettest.relativePermittivity).toBeGreaterThan(driest.relativePermittivity);
    }
  });
});
