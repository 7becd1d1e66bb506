/**
 * The surface-impedance method.
 *
 * Source: F. R. Abbott, "Design of Optimum Buried-Conductor RF Ground System", Proc. IRE 40, 846–852, 1952.
 * Status: memory for the formulas.
 * Source: J. R. Wait and W. A. Pope, "The characteristics of a vertical antenna with a radial conductor ground system",
 * Appl. Sci. Res. B 4, 1954. Status: memory for the formulas.
 * Source: G. D. Monteath, "Application of the compensation theorem to certain radiation and propagation problems",
 * Proc. IEE 98 IV, 1951; confirmed by S. W. Maley and R. J. King, J. Res. NBS 66D, 1962. Status: memory for the
 * formulas.
 * Source: the same formulas: identities, which follow exactly, and values by an independent program. Status: computed.
 *
 * Tolerance: half the last printed digit, or 1e-9 for identities.
 */
import { describe, test } from 'vitest';
import { bareRingLossFactor } from '../../src/core/ground/bare-soil.ts';
import { SPEED_OF_LIGHT } from '../../src/core/ground/free-space.ts';
import { groundIntegrals } from '../../src/core/ground/ground-integrals.ts';
import { magneticField, radialCurrent } from '../../src/core/ground/magnetic-field.ts';
import { uniformField } from '../../src/core/ground/radial-field.ts';
import { soilImpedanceOhm } from '../../src/core/ground/soil.ts';
import {
  griddedSoilImpedanceOhm,
  gridReactanceOhm,
  groundSurface,
} from '../../src/core/ground/surface-impedance.ts';
import { expectClose } from '../support/expect-close.ts';

const frequencyHz = 7.1e6;
const wavelength = SPEED_OF_LIGHT / frequencyHz;
const AVERAGE = { conductivitySPerM: 0.005, relativePermittivity: 13 };

function monopole(wavelengths: number): { heightM: number; radiusM: number } {
  return { heightM: wavelengths * wavelength, radiusM: 1e-3 };
}

/** 2πρ|Hφ|/I0. */
function totalCurrent(heightWavelengths: number, distanceWavelengths: number): number {
  const { re, im } = radialCurrent(
    monopole(heightWavelengths),
    frequencyHz,
    distanceWavelengths * wavelength,
  );
  return Math.hypot(re, im) / Math.sin(2 * Math.PI * heightWavelengths);
}

describe('magnetic field on the ground', () => {
  test('identity: a quarter wave has 2πρ|Hφ| = I0 at every distance', () => {
    for (const distance of [1e-6, 0.01, 0.1, 0.25, 0.5, 3]) {
      expectClose(totalCurrent(1 / 4, distance), 1, { absolute: 1e-9 });
    }
    const { re, im } = magneticField(monopole(1 / 4), frequencyHz, 10);
    expectClose(2 * Math.PI * 10 * Math.hypot(re, im), 1, { absolute: 1e-9 });
  });

  test('identity: at the base it is the base current, whatever the height', () => {
    for (const height of [0.02, 1 / 16, 1 / 8, 0.2, 0.375]) {
      expectClose(totalCurrent(height, 0), 1, { absolute: 1e-9 });
    }
  });

  test.each([
    [0.05, 0.7497],
    [0.1, 0.6089],
    [0.125, 0.5656],
    [0.25, 0.4691],
    [0.5, 0.4299],
  ])('λ/8 at %f λ: %f', (distance, expected) => {
    expectClose(totalCurrent(1 / 8, distance), expected, { absolute: 0.5e-4 });
  });
});

describe('surface impedance', () => {
  test('average soil is 81.93 + j33.30 Ω', () => {
    const soil = soilImpedanceOhm(AVERAGE, frequencyHz);
    expectClose(soil.re, 81.93, { absolute: 0.005 });
    expectClose(soil.im, 33.3, { absolute: 0.005 });
  });

  test('16 wires at 5 m are j100.64 Ω, and with the soil 33.66 + j45.61 Ω', () => {
    const spacing = (2 * Math.PI * 5) / 16;
    expectClose(gridReactanceOhm(groundSurface(AVERAGE, frequencyHz), spacing, 1e-3), 100.64, {
      absolute: 0.005,
    });
    const both = griddedSoilImpedanceOhm(AVERAGE, frequencyHz, spacing, 1e-3);
    expectClose(both.re, 33.66, { absolute: 0.005 });
    expectClose(both.im, 45.61, { absolute: 0.005 });
  });
});

describe('loss resistance of a quarter wave to λ/2', () => {
  test('identity: a bare ring from L to 2L costs Re(η)·ln 2/2π = 9.04 Ω', () => {
    const factor = bareRingLossFactor(monopole(1 / 4), frequencyHz, 0.2 * wavelength, 0.4 * wavelength);
    expectClose(factor, Math.LN2 / (2 * Math.PI), { absolute: 1e-9 });
    expectClose(factor * soilImpedanceOhm(AVERAGE, frequencyHz).re, 9.04, { absolute: 0.005 });
  });

  test.each([
    [0.25, 4, 33.4],
    [0.25, 8, 25.2],
    [0.25, 16, 18.0],
    [0.25, 32, 12.8],
    [0.25, 64, 10.1],
    [0.25, 120, 9.32],
    [0.125, 4, 34.3],
    [0.125, 8, 27.1],
    [0.125, 16, 21.8],
    [0.125, 32, 19.2],
    [0.125, 64, 18.3],
    [0.125, 120, 18.1],
  ])('%f λ × %i: %f Ω', (length, count, expected) => {
    const { lossOhm } = groundIntegrals({
      monopole: monopole(1 / 4),
      soil: AVERAGE,
      field: uniformField(count, length * wavelength, 1e-3),
      frequencyHz,
    });
    expectClose(lossOhm, expected, { absolute: expected < 10 ? 0.005 : 0.051 });
  });

  // A dry and a wet season: Rg falls to about half.
  test.each([
    [4, 44.6, 22.2],
    [16, 23.1, 12.6],
    [64, 13.9, 6.7],
  ])('%i radials: %f Ω dry, %f Ω wet', (count, dry, wet) => {
    const loss = (conductivitySPerM: number, relativePermittivity: number): number =>
      groundIntegrals({
        monopole: monopole(1 / 4),
        soil: { conductivitySPerM, relativePermittivity },
        field: uniformField(count, wavelength / 4, 1e-3),
        frequencyHz,
      }).lossOhm;
    expectClose(loss(0.002, 8), dry, { absolute: 0.051 });
    expectClose(loss(0.015, 22), wet, { absolute: 0.051 });
  });
});
