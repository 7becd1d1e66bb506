import { describe, expect, test } from 'vitest';
import { SPEED_OF_LIGHT } from '../../../../src/core/ground/free-space.ts';
import { groundIntegrals } from '../../../../src/core/ground/ground-integrals.ts';
import { compareHalfWave, halfWaveRadiationOhm } from '../../../../src/core/ground/half-wave.ts';
import { monopoleImpedance } from '../../../../src/core/ground/monopole.ts';
import { uniformField } from '../../../../src/core/ground/radial-field.ts';
import { expectClose } from '../../../support/expect-close.ts';
import { userErrorOf } from '../../../support/user-error-of.ts';

const frequencyHz = 7.1e6;
const wavelength = SPEED_OF_LIGHT / frequencyHz;
const soil = { conductivitySPerM: 0.005, relativePermittivity: 13 };
const options = {
  frequencyHz,
  soil,
  radiusM: 1e-3,
  quarterWaveField: uniformField(16, 5, 1e-3),
  counterpoise: null,
  baseHeightM: 0,
};

describe('half wave beside quarter wave', () => {
  test('on the ground it is the monopole of the closed form', () => {
    const half = { heightM: wavelength / 2, radiusM: 1e-3 };
    expectClose(halfWaveRadiationOhm(frequencyHz, 0), monopoleImpedance(half, frequencyHz).atLoopOhm.re, {
      relative: 1e-6,
    });
    const field = uniformField(60, 10, 1e-3);
    const { lossOhm, conductorOhm } = groundIntegrals({ monopole: half, soil, field, frequencyHz });
    const { halfWave } = compareHalfWave({ ...options, counterpoise: field });
    expectClose(halfWave.lossOhm, lossOhm + conductorOhm, { relative: 1e-4 });
  });

  test('of its own height is told as the ground loss tells it, which half a wavelength is a case of', () => {
    const field = uniformField(16, 5, 1e-3);
    const of = (heightM: number) =>
      compareHalfWave({
        ...options,
        counterpoise: field,
        own: { heightM, radiationResistanceOhm: undefined },
      });
    const { halfWave } = compareHalfWave({ ...options, counterpoise: field });
    expectClose(of(wavelength / 2).halfWave.lossDb, halfWave.lossDb, { relative: 1e-4 });
    // Either side of where the base current can be told, the loop has nearly the same loss.
    const [shorter, longer] = [of(0.416 * wavelength).halfWave, of(0.418 * wavelength).halfWave];
    expectClose(shorter.lossOhm, longer.lossOhm, { relative: 0.01 });
    expectClose(shorter.radiationResistanceOhm, longer.radiationResistanceOhm, { relative: 0.02 });
  });

  test('loses less than a quarter wave over a small field, with no counterpoise at all', () => {
    const { halfWave, quarterWave, halfWaveGainDb } = compareHalfWave(options);
    expectClose(halfWaveGainDb, halfWave.lossDb - quarterWave.lossDb, { absolute: 1e-12 });
    expect(halfWaveGainDb).toBeGreaterThan(0.5);
  });

  test('a short counterpoise buys it under 0.05 dB; the quarter wave lives by its radials', () => {
    const with4 = compareHalfWave({ ...options, counterpoise: uniformField(4, 2, 1e-3) });
    expectClose(with4.halfWave.lossDb, compareHalfWave(options).halfWave.lossDb, { absolute: 0.05 });
    const short = compareHalfWave({ ...options, quarterWaveField: uniformField(4, 2, 1e-3) });
    expect(compareHalfWave(options).quarterWave.lossDb - short.quarterWave.lossDb).toBeGreaterThan(0.5);
  });

  test('a raised base lowers the loss', () => {
    const loss = (baseHeightM: number): number =>
      compareHalfWave({ ...options, baseHeightM }).halfWave.lossDb;
    expect(loss(3)).toBeGreaterThan(loss(1));
    expect(loss(1)).toBeGreaterThan(loss(0));
  });

  test('tells what it leaves out', () => {
    expect(compareHalfWave(options).notes.join()).toMatch(/electric-field.*left out/);
  });

  test.each([-1, wavelength, Number.NaN])('refuses a base height of %f m', (baseHeightM) => {
    expect(userErrorOf(() => compareHalfWave({ ...options, baseHeightM }))).toEqual([
      'bad-base-height',
      'antenna.baseHeight',
    ]);
  });
});
