/**
 * Near and far field of a base-fed monopole over perfect ground; c = 299 792 458 m/s.
 *
 * Source: S. A. Schelkunoff, Electromagnetic Waves (1943), and C. A. Balanis, Antenna Theory, ch. 8: the monopole's
 * closed form, written out below on its own. Status: memory.
 * Source: C. A. Balanis, Antenna Theory, eq. 8-60 (induced-EMF method): radiation resistances. Status: computed; 73 Ω
 * for the half-wave dipole, published.
 * Source: handbook values for λ/4: 313.7 mV/m at 1 km and 194.9 mV/m at 1 mile for 1 kW over perfect ground.
 * Status: published.
 *
 * Tolerance: half of the last printed digit; 0.1 % of the closed form, whose round 30 stands for 29.979.
 */
import { describe, expect, it } from 'vitest';
import { arrange } from '../../src/core/safety/arrangement.ts';
import { farFieldDistanceM } from '../../src/core/safety/far-field.ts';
import { fieldsPerLoopAmpere, largestGain, loopResistanceOhm } from '../../src/core/safety/radiation.ts';
import { expectClose } from '../support/expect-close.ts';

const FREQUENCY_HZ = 7.1e6;
const WAVELENGTH_M = 299_792_458 / FREQUENCY_HZ;

function monopole(wavelengths: number) {
  const heightM = wavelengths * WAVELENGTH_M;
  return arrange({ heightM, radiusM: 1e-3, baseHeightM: 0, elevated: null }, FREQUENCY_HZ);
}

/** |E| and |H| by the closed form of the ground-based monopole, Im = 1 A, with 30 Ω for η₀/4π. */
function closedForm(heightM: number, rhoM: number, zM: number): { electric: number; magnetic: number } {
  const k = (2 * Math.PI) / WAVELENGTH_M;
  const r1 = Math.hypot(rhoM, zM - heightM);
  const r2 = Math.hypot(rhoM, zM + heightM);
  const r = Math.hypot(rhoM, zM);
  const cosine = 2 * Math.cos(k * heightM);
  const sum = (a: number, b: number, c: number): number => {
    const re = a * Math.cos(k * r1) + b * Math.cos(k * r2) - c * Math.cos(k * r);
    const im = a * Math.sin(k * r1) + b * Math.sin(k * r2) - c * Math.sin(k * r);
    return Math.hypot(re, im);
  };
  const ez = 30 * sum(1 / r1, 1 / r2, cosine / r);
  const erho = (30 / rhoM) * sum((zM - heightM) / r1, (zM + heightM) / r2, (zM * cosine) / r);
  const magnetic = sum(1, 1, cosine) / (4 * Math.PI * rhoM);
  return { electric: Math.hypot(ez, erho), magnetic };
}

describe('the closed form of the monopole (Schelkunoff; Balanis)', () => {
  it.each([
    [0.125, 0.05, 1],
    [0.25, 0.05, 0],
    [0.25, 0.05, 2],
    [0.25, 0.3, 10.5],
    [0.25, 5, 1.5],
    [0.5, 1, 2],
    [0.5, 40, 0],
    [0.625, 3, 1],
  ])('is met at %d λ, %d m out and %d m up', (wavelengths, rhoM, zM) => {
    const expected = closedForm(wavelengths * WAVELENGTH_M, rhoM, zM);
    const actual = fieldsPerLoopAmpere(monopole(wavelengths), rhoM, 0, zM);
    // 29.979 stands for 30 in ours: 7e-4.
    expectClose(actual.electricVPerM, expected.electric, { relative: 1e-3 });
    expectClose(actual.magneticAPerM, expected.magnetic, { relative: 1e-9 });
  });

  it('has |E|/|H| of 376.73 Ω far away', () => {
    const { electricVPerM, magneticAPerM } = fieldsPerLoopAmpere(monopole(0.25), 100_000, 0, 0);
    expectClose(electricVPerM / magneticAPerM, 376.73, { relative: 1e-5 });
  });
});

describe('a quarter wave over perfect ground', () => {
  const quarter = monopole(0.25);
  const resistanceOhm = loopResistanceOhm(quarter);

  it('has 36.5 Ω: half of the 73 Ω of a half-wave dipole', () => {
    // 73 Ω is printed without decimals (73.08).
    expectClose(2 * resistanceOhm, 73, { absolute: 0.5 });
    expectClose(resistanceOhm, 36.54, { absolute: 0.005 });
  });

  it('makes 313.7 mV/m at 1 km with 1 kW, and 194.9 mV/m at a mile', () => {
    const currentA = Math.sqrt(1000 / resistanceOhm);
    const field = (m: number): number => currentA * fieldsPerLoopAmpere(quarter, m, 0, 0).electricVPerM;
    // Half of the last digit, plus the height of the antenna against 1 km (5e-5).
    expectClose(field(1000), 0.3137, { absolute: 0.00007 });
    expectClose(field(1609.344), 0.1949, { absolute: 0.00006 });
  });

  it('has a gain of 3.28 over isotropic', () => {
    expectClose(largestGain(quarter, resistanceOhm), 3.28, { absolute: 0.005 });
  });

  it.each([
    [30, 2.844],
    [45, 6.716],
    [60, 12.83],
    [75, 22.15],
    [80, 26.25],
    [100, 50.69],
    [120, 101.0],
  ])('and at %d° of height has %d Ω at its base', (degrees, ohm) => {
    const atLoop = loopResistanceOhm(monopole(degrees / 360));
    // Four digits are printed.
    expectClose(atLoop / Math.sin((degrees * Math.PI) / 180) ** 2, ohm, { relative: 5e-4 });
  });

  it('has 99.5 Ω at the loop of a half wave, where the base value runs off: half of 199 Ω', () => {
    expectClose(loopResistanceOhm(monopole(0.5)), 99.5, { absolute: 0.05 });
  });
});

describe('far field and near field beyond a wavelength, on the high bands', () => {
  it.each([
    // MHz, W of carrier, V/m and A/m for the general population (47 CFR 1.1310)
    [18.1, 10_000],
    [21.2, 5000],
    [28.5, 1500],
  ])('agree within 5 %% on the distance at %d MHz and %d W', (mhz, powerW) => {
    const frequencyHz = mhz * 1e6;
    const heightM = (0.25 * 299_792_458) / frequencyHz;
    const quarter = arrange({ heightM, radiusM: 1e-3, baseHeightM: 0, elevated: null }, frequencyHz);
    const currentA = Math.sqrt(powerW / loopResistanceOhm(quarter));
    // Over perfect ground the gain of 3.28 holds the reflection already, so K is 1.
    const distanceM = farFieldDistanceM(powerW, 3.28, 1800 / mhz ** 2, 1);
    expect(distanceM).toBeGreaterThan(299.792458 / mhz);
    // At that distance the near field's E is at its level within 5 %; field goes as 1/distance there. The level is
    // S as a plane wave's E, for 824/f V/m itself is 0.2 % off it.
    const { electricVPerM, magneticAPerM } = fieldsPerLoopAmpere(quarter, distanceM, 0, 0);
    expectClose(currentA * electricVPerM, Math.sqrt(376.73 * 1800) / mhz, { relative: 0.05 });
    expectClose(currentA * magneticAPerM, Math.sqrt(1800 / 376.73) / mhz, { relative: 0.05 });
  });
});
