/**
 * Source: C. A. Balanis, Antenna Theory: Analysis and Design, sec. 8.5, eq. 8-60 (input impedance of a thin dipole by
 * the induced-EMF method, halved for a monopole over perfect ground): values from the same closed form by an
 * independent program. Status: computed.
 * Source: the same, ch. 4: 73 + j42.5 Ω for the λ/2 dipole; handbooks: 313.7 mV/m at 1 km and 194.9 mV/m at a mile for
 * 1 kW. Status: published.
 *
 * Tolerance: 0.1 %, or half the last printed digit.
 */
import { describe, expect, test } from 'vitest';
import { FREE_SPACE_IMPEDANCE_OHM, SPEED_OF_LIGHT } from '../../src/core/ground/free-space.ts';
import {
  loopEffectiveHeightM,
  monopoleImpedance,
  monopoleImpedanceOhm,
} from '../../src/core/ground/monopole.ts';
import { monopoleResonance } from '../../src/core/ground/monopole-resonance.ts';
import { expectClose } from '../support/expect-close.ts';

const frequencyHz = 7.1e6;
const wavelength = SPEED_OF_LIGHT / frequencyHz;

describe('radiation resistance at the base', () => {
  test.each([
    [30, 2.844],
    [45, 6.716],
    [60, 12.83],
    [75, 22.15],
    [80, 26.25],
    [90, 36.54],
    [100, 50.69],
    [120, 101.0],
  ])('%i degrees high: %f Ω', (degrees, expected) => {
    const monopole = { heightM: (degrees / 360) * wavelength, radiusM: 1e-3 };
    expectClose(monopoleImpedanceOhm(monopole, frequencyHz).re, expected, { relative: 1e-3 });
  });

  test('a half-wave dipole is 73 + j42.5 Ω, whatever its thickness', () => {
    for (const radiusM of [1e-4, 1e-2]) {
      const half = monopoleImpedanceOhm({ heightM: wavelength / 4, radiusM }, frequencyHz);
      // Published to three digits.
      expectClose(2 * half.re, 73.1, { absolute: 0.05 });
      expectClose(2 * half.im, 42.5, { absolute: 0.05 });
      expectClose(half.im, 21.26, { absolute: 0.005 });
    }
  });

  test('40π²(h/λ)² is 5 % low at 0.1 λ and 32 % low at a quarter wave', () => {
    const low = (wavelengths: number): number => {
      const exact = monopoleImpedanceOhm(
        { heightM: wavelengths * wavelength, radiusM: 1e-3 },
        frequencyHz,
      ).re;
      return 1 - (40 * Math.PI ** 2 * wavelengths ** 2) / exact;
    };
    expectClose(low(0.1), 0.05, { absolute: 0.005 });
    expectClose(low(0.25), 0.32, { absolute: 0.005 });
  });
});

describe('first resonance against thickness', () => {
  test.each([
    [1e-5, 0.2442, 34.1],
    [2.4e-5, 0.2436, 33.9],
    [1e-4, 0.969 / 4, 33.4],
    [1e-3, 0.955 / 4, 32.0],
  ])('a/λ = %f: %f λ, %f Ω', (thickness, height, resistance) => {
    // Both in wavelengths at resonance.
    const found = monopoleResonance({ heightM: height, radiusM: thickness });
    expectClose(found.heightWavelengths, height, { relative: 5e-4 });
    expectClose(found.resistanceOhm, resistance, { absolute: 0.05 });
  });
});

test('1 kW over perfect ground gives 313.7 mV/m at 1 km and 194.9 mV/m at 1 mile', () => {
  const monopole = { heightM: wavelength / 4, radiusM: 1e-3 };
  const current = Math.sqrt(1000 / monopoleImpedance(monopole, frequencyHz).atLoopOhm.re);
  // Far field along the ground: η0·k·I·heff/(2πd), the image included.
  const field = (distanceM: number): number =>
    (FREE_SPACE_IMPEDANCE_OHM * current * loopEffectiveHeightM(monopole, frequencyHz)) /
    (wavelength * distanceM);
  expectClose(field(1000), 0.3137, { relative: 5e-4 });
  expectClose(field(1609.344), 0.1949, { relative: 5e-4 });
});

test('near a half wave the loop value stands and the base value cannot be told', () => {
  const { atLoopOhm, atBaseOhm } = monopoleImpedance({ heightM: wavelength / 2, radiusM: 1e-3 }, frequencyHz);
  // Full-wave dipole at its current maximum: 199 Ω, halved; J. D. Kraus, Antennas (memory).
  expectClose(atLoopOhm.re, 99.5, { absolute: 0.5 });
  expect(atBaseOhm).toBeNull();
});
