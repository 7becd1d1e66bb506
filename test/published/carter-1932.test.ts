/**
 * Source: P. S. Carter, "Circuit Relations in Radiating Systems and Applications to Antenna Problems", Proc. IRE 20(6),
 * 1004–1041, June 1932: self and mutual resistance of half-wave dipoles in line, as in J. D. Kraus, Antennas.
 * Status: memory.
 *
 * Tolerance: 1e-5, that of the integral. The raised half wave and its image are such a pair.
 */
import { describe, test } from 'vitest';
import { FREE_SPACE_IMPEDANCE_OHM, SPEED_OF_LIGHT } from '../../src/core/ground/free-space.ts';
import { halfWaveRadiationOhm } from '../../src/core/ground/half-wave.ts';
import {
  cosineIntegral as Ci,
  entireCosineIntegral,
  sineIntegral as Si,
} from '../../src/core/ground/sine-cosine-integrals.ts';
import { expectClose } from '../support/expect-close.ts';

const frequencyHz = 7.1e6;
const wavelength = SPEED_OF_LIGHT / frequencyHz;

/** Mutual resistance of two half-wave dipoles in line, their middles s wavelengths apart. */
function mutualInLine(s: number): number {
  const ks = 2 * Math.PI * s;
  const x = (distance: number): number => 4 * Math.PI * distance;
  const logarithm = Math.log((s * s - 0.25) / (s * s));
  const inPhase = -2 * Ci(x(s)) + Ci(x(s - 0.5)) + Ci(x(s + 0.5)) - logarithm;
  const across = 2 * Si(x(s)) - Si(x(s - 0.5)) - Si(x(s + 0.5));
  return (FREE_SPACE_IMPEDANCE_OHM / (8 * Math.PI)) * (-Math.cos(ks) * inPhase + Math.sin(ks) * across);
}

describe('a half wave with its foot raised over perfect ground', () => {
  // Tolerance: the integral's own 1e-5.
  test.each([0.01, 0.05, 0.1, 0.25, 0.5])('%f λ: self plus mutual resistance with its image', (base) => {
    const self = (FREE_SPACE_IMPEDANCE_OHM / (4 * Math.PI)) * entireCosineIntegral(2 * Math.PI);
    const expected = self + mutualInLine(0.5 + 2 * base);
    expectClose(halfWaveRadiationOhm(frequencyHz, base * wavelength), expected, { relative: 1e-5 });
  });
});
