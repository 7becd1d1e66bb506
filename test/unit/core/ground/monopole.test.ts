import { describe, expect, test } from 'vitest';
import { SPEED_OF_LIGHT } from '../../../../src/core/ground/free-space.ts';
import {
  effectiveHeightM,
  isBaseCurrentTold,
  loopEffectiveHeightM,
  monopoleImpedance,
  monopoleImpedanceOhm,
} from '../../../../src/core/ground/monopole.ts';
import { monopoleResonance, resonantHeightM } from '../../../../src/core/ground/monopole-resonance.ts';
import { expectClose } from '../../../support/expect-close.ts';
import { userErrorOf } from '../../../support/user-error-of.ts';

const frequencyHz = 7.1e6;
const wavelength = SPEED_OF_LIGHT / frequencyHz;
const at = (wavelengths: number, radiusM = 1e-3): { heightM: number; radiusM: number } => ({
  heightM: wavelengths * wavelength,
  radiusM,
});

describe('monopole impedance', () => {
  test('is finite at the loop at every height up to 5/8 λ, half wave included', () => {
    for (let wavelengths = 0.01; wavelengths <= 0.625; wavelengths += 0.005) {
      const { atLoopOhm } = monopoleImpedance(at(wavelengths), frequencyHz);
      expect(atLoopOhm.re).toBeGreaterThan(0);
      expect(Number.isFinite(atLoopOhm.im)).toBe(true);
    }
  });

  test('has no base value from 0.417 to 0.583 λ, where thickness sets the base current', () => {
    expect(monopoleImpedance(at(0.41), frequencyHz).atBaseOhm).not.toBeNull();
    expect(monopoleImpedance(at(0.42), frequencyHz).atBaseOhm).toBeNull();
    expect(monopoleImpedance(at(0.58), frequencyHz).atBaseOhm).toBeNull();
    expect(monopoleImpedance(at(0.59), frequencyHz).atBaseOhm).not.toBeNull();
    expect(userErrorOf(() => monopoleImpedanceOhm(at(0.5), frequencyHz))).toEqual([
      'near-half-wave',
      'antenna.height',
    ]);
  });

  test('a very short one still has a base value and 40π²(h/λ)²', () => {
    const { atBaseOhm } = monopoleImpedance(at(0.01), frequencyHz);
    expectClose(atBaseOhm?.re, 40 * Math.PI ** 2 * 1e-4, { relative: 2e-3 });
    expect(isBaseCurrentTold(at(0.01), frequencyHz)).toBe(true);
  });

  test('thickness changes the reactance alone', () => {
    const thin = monopoleImpedanceOhm(at(0.2, 1e-3), frequencyHz);
    const thick = monopoleImpedanceOhm(at(0.2, 0.05), frequencyHz);
    expectClose(thick.re, thin.re, { relative: 1e-12 });
    expect(thick.im).toBeGreaterThan(thin.im);
  });

  test.each([
    [{ heightM: 0, radiusM: 1e-3 }, 'not-positive', 'antenna.height'],
    [{ heightM: -3, radiusM: 1e-3 }, 'not-positive', 'antenna.height'],
    [{ heightM: Number.NaN, radiusM: 1e-3 }, 'not-positive', 'antenna.height'],
    [{ heightM: 10, radiusM: 0 }, 'not-positive', 'antenna.diameter'],
    [{ heightM: 0.63 * wavelength, radiusM: 1e-3 }, 'too-tall', 'antenna.height'],
  ])('refuses %o', (monopole, code, field) => {
    expect(userErrorOf(() => monopoleImpedance(monopole, frequencyHz))).toEqual([code, field]);
  });

  test('refuses a frequency of zero', () => {
    expect(userErrorOf(() => monopoleImpedance(at(0.25), 0))).toEqual(['not-positive', 'frequency']);
  });
});

describe('effective height', () => {
  test('of a quarter wave is λ/2π at loop and base alike', () => {
    expectClose(loopEffectiveHeightM(at(0.25), frequencyHz), wavelength / (2 * Math.PI), { relative: 1e-12 });
    expectClose(effectiveHeightM(at(0.25), frequencyHz), wavelength / (2 * Math.PI), { relative: 1e-12 });
  });

  test('of a short one is half its height', () => {
    expectClose(effectiveHeightM(at(0.01), frequencyHz), 0.005 * wavelength, { relative: 1e-3 });
  });

  test('is not told at the base of a half wave', () => {
    expect(effectiveHeightM(at(0.5), frequencyHz)).toBeNull();
  });
});

describe('resonance', () => {
  test('is where the reactance crosses zero', () => {
    const monopole = { heightM: 10.1, radiusM: 0.0125 };
    const { frequencyHz: resonance, resistanceOhm } = monopoleResonance(monopole);
    const impedance = monopoleImpedanceOhm(monopole, resonance);
    expectClose(impedance.im, 0, { absolute: 1e-6 });
    expectClose(impedance.re, resistanceOhm, { relative: 1e-9 });
  });

  test('a height cut for a frequency is resonant there', () => {
    const heightM = resonantHeightM(0.0125, frequencyHz);
    expectClose(monopoleResonance({ heightM, radiusM: 0.0125 }).frequencyHz, frequencyHz, { relative: 1e-9 });
  });

  test('refuses a conductor without thickness', () => {
    expect(userErrorOf(() => monopoleResonance({ heightM: 10, radiusM: 0 }))).toEqual([
      'not-positive',
      'antenna.diameter',
    ]);
    expect(userErrorOf(() => resonantHeightM(-1, frequencyHz))).toEqual(['not-positive', 'antenna.diameter']);
  });
});
