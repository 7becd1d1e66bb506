/**
 * Source: J. Stanley, "Optimum Ground Systems for Vertical Antennas", QST, December 1976; reproduced in The ARRL
 * Antenna Book, 20th ed., chapter 3, table 1: λ/4 radiator, feed resistance of six fields. Status: published. The
 * source names no soil, frequency or wire: average soil, 7.2 MHz and 2 mm wire are our reading.
 *
 * Tolerance: 3 Ω, because the source rounds to an ohm and leaves soil and wire open.
 */
import { describe, expect, test } from 'vitest';
import { feedPointImpedanceOhm } from '../../src/core/ground/feed-point.ts';
import { SPEED_OF_LIGHT } from '../../src/core/ground/free-space.ts';
import { uniformField } from '../../src/core/ground/radial-field.ts';
import { expectClose } from '../support/expect-close.ts';

const frequencyHz = 7.2e6;
const wavelength = SPEED_OF_LIGHT / frequencyHz;

/** Count, length in λ, published feed resistance, and that of an independent program. */
const TABLE = [
  [16, 0.1, 52, 49.3],
  [24, 0.125, 46, 45.6],
  [36, 0.15, 43, 42.5],
  [60, 0.2, 40, 38.5],
  [90, 0.25, 37, 36.1],
  [120, 0.4, 35, 36.8],
] as const;

function feedResistance(count: number, lengthWavelengths: number): number {
  return feedPointImpedanceOhm({
    monopole: { heightM: wavelength / 4, radiusM: 1e-3 },
    soil: { conductivitySPerM: 0.005, relativePermittivity: 13 },
    field: uniformField(count, lengthWavelengths * wavelength, 1e-3),
    frequencyHz,
  }).re;
}

describe('feed resistance of a quarter wave (ΔZ form)', () => {
  // Tolerance: 3 Ω, because the source rounds to an ohm and leaves soil and wire open.
  test.each(TABLE)('%i radials of %f λ: %f Ω', (count, length, published) => {
    expectClose(feedResistance(count, length), published, { absolute: 3 });
  });

  // Computed by an independent program, one decimal; the wires' own loss and the outer limit of the
  // integral are open by 0.1 Ω.
  test.each(TABLE)('%i radials of %f λ agree with another program', (count, length, _, computed) => {
    expectClose(feedResistance(count, length), computed, { absolute: 0.15 });
  });
});

test('the published order holds: more and longer wires lower the feed resistance down the first five rows', () => {
  const resistances = TABLE.slice(0, 5).map(([count, length]) => feedResistance(count, length));
  expect(resistances).toEqual([...resistances].sort((a, b) => b - a));
});
