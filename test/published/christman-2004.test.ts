/**
 * Source: R. Christman, "Maximum-Gain Radial Ground Systems for Vertical Antennas", NCJ, March/April 2004, table VII:
 * best number of radials for a given total of wire, and the gain it gives; 1.835 MHz, 0.005 S/m, εr 13, λ/4 radiator.
 * Status: published. Wire of 14 AWG is our reading.
 *
 * Tolerance: 15 % of the number, whose optimum is flat; gains stay below the published ones by what the stated bias
 * allows.
 */
import { describe, expect, test } from 'vitest';
import { efficiency } from '../../src/core/ground/feed-point.ts';
import { SPEED_OF_LIGHT } from '../../src/core/ground/free-space.ts';
import { uniformField } from '../../src/core/ground/radial-field.ts';
import { expectClose } from '../support/expect-close.ts';

const frequencyHz = 1.835e6;
const wavelength = SPEED_OF_LIGHT / frequencyHz;

/** Feet of wire, fewest and most radials at the published best, gain in dBi. */
const TABLE = [
  [500, 11, 12, 0.11],
  [1000, 17, 18, 0.38],
  [2000, 23, 28, 0.63],
  [4000, 32, 40, 0.89],
  [8000, 45, 55, 1.17],
  [16000, 76, 76, 1.48],
  [32000, 99, 122, 1.75],
] as const;

function at(wireM: number, count: number): ReturnType<typeof efficiency> {
  return efficiency({
    monopole: { heightM: wavelength / 4, radiusM: 1e-3 },
    soil: { conductivitySPerM: 0.005, relativePermittivity: 13 },
    field: uniformField(count, wireM / count, 0.814e-3),
    frequencyHz,
  });
}

function best(feet: number): { count: number; lossDb: number } {
  const wireM = feet * 0.3048;
  let found = { count: 0, lossDb: Number.NEGATIVE_INFINITY };
  for (let count = 4; count < 150; count += 1) {
    const { lossDb } = at(wireM, count);
    if (lossDb > found.lossDb) found = { count, lossDb };
  }
  return found;
}

const OURS = TABLE.map(([feet]) => best(feet));

describe('best number of radials for the wire at hand', () => {
  // Tolerance 15 %: the optimum is flat, 0.005 dB wide over ±8 % in the number.
  test.each(TABLE.map(([feet, low, high], i) => [feet, low, high, OURS[i]?.count ?? 0] as const))(
    '%i ft: %i to %i published, %i here',
    (_, low, high, count) => {
      expect(count).toBeGreaterThanOrEqual(low * 0.85);
      expect(count).toBeLessThanOrEqual(high * 1.15);
    },
  );

  test('its tips are 0.03 to 0.04 λ apart, as the rule N = √(2πW/t) has it, while wires are under 0.45 λ', () => {
    TABLE.slice(0, 6).forEach(([feet], i) => {
      const count = OURS[i]?.count ?? Number.NaN;
      const spacing = (2 * Math.PI * feet * 0.3048) / (count * count * wavelength);
      expectClose(spacing, 0.035, { absolute: 0.005 });
    });
  });
});

describe('each doubling of the wire', () => {
  const doublings = OURS.slice(1).map(({ lossDb }, i) => lossDb - (OURS[i]?.lossDb ?? 0));

  // The source has 0.25 to 0.31 dB. The |H|² form has 0.20 to 0.25: it is the kinder, the shorter and
  // fewer the wires, so that a doubling wins back less. See the next test for the whole series.
  test('is worth 0.19 to 0.25 dB by the bare method, 0.02 to 0.08 less than published', () => {
    doublings.forEach((gain, i) => {
      const published = (TABLE[i + 1]?.[3] ?? 0) - (TABLE[i]?.[3] ?? 0);
      expect(gain).toBeGreaterThan(0.19);
      expect(gain).toBeLessThan(0.25);
      expect(published - gain).toBeGreaterThan(0.02);
      expect(published - gain).toBeLessThan(0.08);
    });
  });

  test('over the six doublings the missing 0.3 dB is what the stated bias allows', () => {
    const first = at(500 * 0.3048, OURS[0]?.count ?? 1);
    const last = at(32000 * 0.3048, OURS[6]?.count ?? 1);
    const computed = last.lossDb - first.lossDb;
    const published = 1.75 - 0.11;
    expectClose(computed, 1.33, { absolute: 0.02 });
    // Bias shrinks from the first to the last by at least this much and at most that.
    const least = first.biasDb.low - last.biasDb.high;
    const most = first.biasDb.high - last.biasDb.low;
    expect(published - computed).toBeGreaterThan(least);
    expect(published - computed).toBeLessThan(most);
  });
});
