/**
 * Skin effect in a round wire.
 *
 * Source: IEC 60028, and NBS Handbook 100, Copper Wire Tables: resistivity of annealed copper, 1.7241e-8 Ω·m.
 * Status: published.
 * Source: δ = √(ρ/(πfμ0)): skin depths and surface resistances. Status: computed.
 *
 * Tolerance: half the last printed digit; 3 % where the wire is about as thick as the skin.
 */
import { describe, test } from 'vitest';
import {
  COPPER,
  conductorSkinDepthM,
  surfaceResistanceOhm,
  wireResistanceOhmPerM,
} from '../../src/core/ground/conductor.ts';
import { expectClose } from '../support/expect-close.ts';

describe('annealed copper', () => {
  test.each([
    [1.8, 49.26, 0.35],
    [3.6, 34.83, 0.495],
    [7.1, 24.8, 0.695],
    [14.2, 17.54, 0.983],
    [21.2, 14.35, 1.201],
    [28.5, 12.38, 1.393],
  ])('%f MHz: %f µm, %f mΩ a square', (megahertz, micrometres, milliohms) => {
    expectClose(conductorSkinDepthM(COPPER, megahertz * 1e6), micrometres * 1e-6, { absolute: 0.5e-8 });
    expectClose(surfaceResistanceOhm(COPPER, megahertz * 1e6), milliohms * 1e-3, { absolute: 0.51e-6 });
  });

  test('20.9 µm at 10 MHz for 58 MS/m', () => {
    expectClose(conductorSkinDepthM({ resistivityOhmM: 1 / 5.8e7, relativePermeability: 1 }, 1e7), 20.9e-6, {
      absolute: 0.5e-7,
    });
  });
});

describe('a round wire', () => {
  test('2 mm at 7.1 MHz: 0.1106 Ω/m by the skin alone, 1.3 % more with its curvature', () => {
    const skinAlone = surfaceResistanceOhm(COPPER, 7.1e6) / (2 * Math.PI * 1e-3);
    expectClose(skinAlone, 0.1106, { absolute: 0.5e-4 });
    expectClose(wireResistanceOhmPerM(COPPER, 1e-3, 7.1e6) / skinAlone, 1.0125, { absolute: 0.0005 });
  });

  test('at low frequency it is the wire table: 14 AWG 8.2853 Ω/km', () => {
    expectClose(wireResistanceOhmPerM(COPPER, 1.6277e-3 / 2, 50), 8.2853e-3, { relative: 1e-4 });
  });

  // R/R0 from the exact Bessel form Re[(ka/2)·J0(ka)/J1(ka)], by an arbitrary-precision library.
  // Tolerance 3 %, the docstring's, and 0.1 % above 4 skin depths.
  test.each([
    [0.5, 1.0013, 0.03],
    [1.5, 1.09733, 0.03],
    [2, 1.26464, 0.03],
    [3, 1.76813, 0.03],
    [4, 2.2738, 0.001],
    [10, 5.2593, 0.001],
    [40, 20.25234, 0.001],
  ])('of %f skin depths in radius: R/R0 = %f', (ratio, expected, relative) => {
    const radiusM = ratio * conductorSkinDepthM(COPPER, 7e6);
    const direct = COPPER.resistivityOhmM / (Math.PI * radiusM ** 2);
    expectClose(wireResistanceOhmPerM(COPPER, radiusM, 7e6) / direct, expected, { relative });
  });
});
