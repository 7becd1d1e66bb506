import { describe, expect, test } from 'vitest';
import { findConductor } from '../../../../src/core/ground/conductor.ts';
import { efficiency, feedPointImpedanceOhm } from '../../../../src/core/ground/feed-point.ts';
import { SPEED_OF_LIGHT } from '../../../../src/core/ground/free-space.ts';
import { groundIntegrals } from '../../../../src/core/ground/ground-integrals.ts';
import { groundLoss } from '../../../../src/core/ground/ground-loss.ts';
import { measuredBiasDb } from '../../../../src/core/ground/measured-bias.ts';
import { monopoleImpedanceOhm } from '../../../../src/core/ground/monopole.ts';
import { sectorField, uniformField } from '../../../../src/core/ground/radial-field.ts';
import { expectClose } from '../../../support/expect-close.ts';
import { userErrorOf } from '../../../support/user-error-of.ts';

const frequencyHz = 7.1e6;
const wavelength = SPEED_OF_LIGHT / frequencyHz;
const soil = { conductivitySPerM: 0.005, relativePermittivity: 13 };
const monopole = { heightM: wavelength / 4, radiusM: 1e-3 };
const field = uniformField(32, 10, 1e-3);
const system = { monopole, soil, field, frequencyHz };

describe('groundIntegrals', () => {
  test('estimates its own error, well under 1e-4 of the loss', () => {
    for (const wires of [field.wires, field.wires.slice(0, 21)]) {
      const { lossOhm, quadratureErrorOhm } = groundIntegrals({ ...system, field: { wires } });
      expect(quadratureErrorOhm).toBeLessThan(1e-4 * lossOhm);
    }
  });

  test('wires beyond half a wavelength change the reaction but not the loss to λ/2', () => {
    const to = (lengthM: number): ReturnType<typeof groundIntegrals> =>
      groundIntegrals({ ...system, field: uniformField(32, lengthM, 1e-3) });
    expectClose(to(0.7 * wavelength).lossOhm, to(0.5 * wavelength).lossOhm, { relative: 1e-4 });
    const change = to(0.7 * wavelength).reactionOhm.re - to(0.5 * wavelength).reactionOhm.re;
    expect(Math.abs(change)).toBeGreaterThan(0.01);
  });

  test('a bare quarter of the circle costs more than its share of evenly spread wires', () => {
    const gap = sectorField([{ fromDeg: 0, toDeg: 270, count: 32, lengthM: 10 }], 1e-3);
    expect(groundIntegrals({ ...system, field: gap }).lossOhm).toBeGreaterThan(
      groundIntegrals(system).lossOhm,
    );
  });

  test('poorer metal costs more in the wires alone', () => {
    const steel = uniformField(32, 10, 1e-3, findConductor('steel'));
    const copper = groundIntegrals(system);
    const iron = groundIntegrals({ ...system, field: steel });
    expectClose(iron.lossOhm, copper.lossOhm, { relative: 1e-9 });
    expect(iron.conductorOhm).toBeGreaterThan(20 * copper.conductorOhm);
  });

  test('the wires of a quarter wave cost R′L/N at most, when they carry all the current', () => {
    const dry = { conductivitySPerM: 1e-4, relativePermittivity: 3 };
    const many = uniformField(120, 10, 1e-3);
    const { conductorOhm } = groundIntegrals({ ...system, soil: dry, field: many });
    const allInWires = (0.112 * 10) / 120;
    expect(conductorOhm).toBeLessThan(1.5 * allInWires);
    expect(conductorOhm).toBeGreaterThan(0.9 * allInWires);
  });

  test('near a half wave refers to the loop, and elsewhere to the base', () => {
    expect(groundIntegrals(system).referredTo).toBe('base');
    const half = { heightM: wavelength / 2, radiusM: 1e-3 };
    const { referredTo, lossOhm } = groundIntegrals({ ...system, monopole: half });
    expect(referredTo).toBe('loop');
    expect(lossOhm).toBeGreaterThan(0);
  });

  test('needs a radial', () => {
    expect(userErrorOf(() => groundIntegrals({ ...system, field: { wires: [] } }))).toEqual([
      'no-radials',
      'radials.count',
    ]);
  });
});

describe('groundLoss says where the method does not hold', () => {
  const outside = (change: Partial<typeof system>): string =>
    groundLoss({ ...system, ...change }).outside.join('; ');

  test('nothing for 32 long radials under a quarter wave', () => {
    expect(outside({})).toBe('');
  });

  test('too few, and their ends too far apart', () => {
    expect(outside({ field: uniformField(4, 10, 1e-3) })).toMatch(
      /3\.7 soil skin depths.*4 radials are too few/,
    );
  });

  test('too short radials', () => {
    expect(outside({ field: uniformField(32, 3, 1e-3) })).toMatch(/0\.07 wavelength long are short/);
  });

  test('too short an antenna', () => {
    expect(outside({ monopole: { heightM: wavelength / 16, radiusM: 1e-3 } })).toMatch(/under 1\/8/);
  });

  test('a tall one, and a half wave', () => {
    expect(outside({ monopole: { heightM: 0.4 * wavelength, radiusM: 1e-3 } })).toMatch(/taller than any/);
    expect(outside({ monopole: { heightM: 0.5 * wavelength, radiusM: 1e-3 } })).toMatch(/current maximum/);
  });

  test('a soil hardly denser than air', () => {
    expect(outside({ soil: { conductivitySPerM: 1e-4, relativePermittivity: 3 } })).toMatch(/hardly denser/);
  });

  test('a bare sector is no spacing of tips', () => {
    const half = sectorField([{ fromDeg: 0, toDeg: 180, count: 20, lengthM: 10 }], 1e-3);
    expect(outside({ field: half })).toBe('');
  });
});

describe('measuredBiasDb', () => {
  test('grows as radials get fewer and the antenna shorter', () => {
    const high = (height: number, count: number): number => measuredBiasDb(height, 0.25, count).high;
    expect(high(0.25, 4)).toBeGreaterThan(high(0.25, 16));
    expect(high(0.25, 16)).toBeGreaterThan(high(0.25, 60));
    expect(high(1 / 16, 60)).toBeGreaterThan(high(1 / 4, 60));
  });

  test('is held beyond the measured configurations', () => {
    expect(measuredBiasDb(0.5, 0.9, 500)).toEqual(measuredBiasDb(0.25, 0.274, 60));
    expect(measuredBiasDb(0.01, 0.01, 1)).toEqual(measuredBiasDb(1 / 16, 0.137, 2));
  });

  test('has no step between them', () => {
    for (let count = 2; count < 80; count += 1) {
      const here = measuredBiasDb(0.2, 0.2, count);
      const next = measuredBiasDb(0.2, 0.2, count + 1);
      expect(Math.abs(next.high - here.high)).toBeLessThan(count < 8 ? 0.75 : 0.2);
      expect(here.low).toBeLessThan(here.high);
    }
  });
});

describe('feedPointImpedanceOhm', () => {
  test('is the monopole, the reaction and the wires', () => {
    const { reactionOhm, conductorOhm } = groundIntegrals(system);
    const bare = monopoleImpedanceOhm(monopole, frequencyHz);
    const { re, im } = feedPointImpedanceOhm(system);
    expectClose(re, bare.re + reactionOhm.re + conductorOhm, { relative: 1e-12 });
    expectClose(im, bare.im + reactionOhm.im, { relative: 1e-12 });
  });

  test('takes the radiation resistance the site gives', () => {
    const given = feedPointImpedanceOhm({ ...system, radiationResistanceOhm: 12 });
    const own = feedPointImpedanceOhm(system);
    expectClose(own.re - given.re, 36.54 - 12, { absolute: 0.01 });
    expectClose(given.im, own.im, { absolute: 1e-12 });
  });

  test('tells nothing near a half wave and refuses a radiation resistance of zero', () => {
    const half = { heightM: wavelength / 2, radiusM: 1e-3 };
    expect(userErrorOf(() => feedPointImpedanceOhm({ ...system, monopole: half }))).toEqual([
      'near-half-wave',
      'antenna.height',
    ]);
    expect(userErrorOf(() => feedPointImpedanceOhm({ ...system, radiationResistanceOhm: 0 }))).toEqual([
      'not-positive',
      'antenna.radiationResistance',
    ]);
  });
});

describe('efficiency', () => {
  test('is radiation over all resistance, and the dB say the same', () => {
    const { fraction, lossDb, radiationResistanceOhm, lossOhm, conductorOhm } = efficiency(system);
    expectClose(fraction, radiationResistanceOhm / (radiationResistanceOhm + lossOhm + conductorOhm), {
      relative: 1e-12,
    });
    expectClose(lossDb, 10 * Math.log10(fraction), { absolute: 1e-12 });
  });

  test('gives the range of the published bias, never above 0 dB', () => {
    const { lossDb, biasDb, range } = efficiency(system);
    expectClose(range.lossDb.low, lossDb - biasDb.high, { absolute: 1e-12 });
    expectClose(range.lossDb.high, lossDb - biasDb.low, { absolute: 1e-12 });
    expect(range.fraction.high).toBeLessThanOrEqual(1);
    expectClose(10 * Math.log10(range.fraction.low), range.lossDb.low, { absolute: 1e-9 });
    expect(range.lossOhm.low).toBeLessThan(range.lossOhm.high);
  });

  test('takes the given radiation resistance at the base, and cannot near a half wave', () => {
    expect(efficiency({ ...system, radiationResistanceOhm: 12 }).radiationResistanceOhm).toBe(12);
    const half = { heightM: wavelength / 2, radiusM: 1e-3 };
    const result = efficiency({ ...system, monopole: half, radiationResistanceOhm: 12 });
    expectClose(result.radiationResistanceOhm, 99.5, { absolute: 0.1 });
  });
});
