/**
 * Radials as the trade lays them.
 *
 * Source: J. Devoldere, Low-Band DXing, 5th ed., p. 9-14: velocity factor on soil. Status: published.
 * Source: the trade: end effect by 234/f ft, the third harmonic by its end-effect formula, many short wires against few
 * long ones. Status: common practice.
 * Source: A. Christman et al., IEEE Trans. Broadcasting 34, March 1988, and R. Severns, QEX, March to June 2012: raised
 * radials against many buried ones. Status: published.
 * Source: the velocity factor of an insulated wire, and the losses of the method where practice and method part.
 * Status: computed.
 *
 * Tolerance: half of the last digit shown.
 */
import { describe, expect, test } from 'vitest';
import { elevatedAdvice } from '../../src/core/ground/elevated.ts';
import { SPEED_OF_LIGHT } from '../../src/core/ground/free-space.ts';
import { groundIntegrals } from '../../src/core/ground/ground-integrals.ts';
import { NAMED_SOILS } from '../../src/core/ground/named-soils.ts';
import { uniformField } from '../../src/core/ground/radial-field.ts';
import { thirdHarmonic, thirdHarmonicUse } from '../../src/core/ground/third-harmonic.ts';
import {
  END_EFFECT,
  insulatedVelocityFactor,
  ON_SOIL_VELOCITY_FACTOR,
  quarterWaveM,
} from '../../src/core/ground/wire-velocity.ts';
import { expectClose } from '../support/expect-close.ts';

describe('lengths', () => {
  test('a quarter wave at 7.1 MHz is 10.556 m, 10.042 m with the usual end effect', () => {
    expectClose(quarterWaveM(7.1e6), 10.556, { absolute: 0.0005 });
    // 71.3/f; the same rule in feet, 234/f, gives 10.046 m.
    expectClose(quarterWaveM(7.1e6, END_EFFECT), 71.3 / 7.1, { absolute: 0.0005 });
    expectClose(quarterWaveM(7.1e6, END_EFFECT), (234 / 7.1) * 0.3048, { absolute: 0.005 });
  });

  test('computed: insulated wire, K 3, 2 mm in 4 mm, 10 m up, has velocity factor 0.9764', () => {
    const wire = { conductorDiameterM: 2e-3, outerDiameterM: 4e-3, dielectricConstant: 3, heightM: 10 };
    expectClose(insulatedVelocityFactor(wire), 0.9764, { absolute: 0.5e-4 });
    expectClose(elevatedAdvice({ frequencyHz: 7.1e6, wire }).cutLengthM, 0.9764 * 10.556, {
      absolute: 0.001,
    });
  });

  test('published: on soil the velocity factor is 0.5 to 0.6', () => {
    expect(ON_SOIL_VELOCITY_FACTOR).toEqual({ low: 0.5, high: 0.6 });
  });
});

describe('third harmonic', () => {
  test('is a bracket from 3.03 to 3.105, never 3', () => {
    const { lowHz, highHz } = thirdHarmonic(7e6);
    expectClose(lowHz / 7e6, 3.03, { absolute: 1e-9 });
    expectClose(highHz / 7e6, 3.105, { absolute: 0.0005 });
  });

  // Common practice: 40 m radials often serve 15 m.
  test('40 m radials serve 15 m when cut for the low end, nearly when cut for the middle', () => {
    const fifteen = { fromHz: 21e6, toHz: 21.45e6 };
    expect(thirdHarmonicUse(7.0e6, fifteen).verdict).toBe('serves');
    expect(thirdHarmonicUse(7.1e6, fifteen).verdict).toBe('nearly');
    expect(thirdHarmonicUse(3.6e6, { fromHz: 10.1e6, toHz: 10.15e6 }).verdict).toBe('does not serve');
  });
});

/** Common practice: many 3 m radials often beat half as many of 6 m. */
describe('short and many against long and few', () => {
  const soils = NAMED_SOILS.filter(({ name }) =>
    ['very-good', 'average', 'rocky', 'sandy', 'city'].includes(name),
  );
  const loss = (soilIndex: number, frequencyHz: number, count: number, lengthM: number): number => {
    const soil = soils[soilIndex];
    if (soil === undefined) throw new Error('no such soil');
    const monopole = { heightM: SPEED_OF_LIGHT / frequencyHz / 4, radiusM: 1e-3 };
    return groundIntegrals({ monopole, soil, field: uniformField(count, lengthM, 1e-3), frequencyHz })
      .lossOhm;
  };

  test('8 of 3 m beat 4 of 6 m from 7 MHz up on every usual soil', () => {
    soils.forEach((_, i) => {
      for (const frequencyHz of [7.1e6, 14.2e6]) {
        expect(loss(i, frequencyHz, 8, 3)).toBeLessThan(loss(i, frequencyHz, 4, 6));
      }
    });
  });

  test('16 of 3 m beat 8 of 6 m at 14 MHz on every usual soil', () => {
    soils.forEach((_, i) => {
      expect(loss(i, 14.2e6, 16, 3)).toBeLessThan(loss(i, 14.2e6, 8, 6));
    });
  });

  // Where practice and method part: 3 m is 0.07 λ at 7 MHz, and past 0.04 λ between tips more wires
  // add nothing. From 16 of 6 m on, length wins, by 5 Ω on average soil.
  test('but 16 of 6 m beat 32 of 3 m at 7 MHz: the wires are dense enough', () => {
    const average = soils.findIndex(({ name }) => name === 'average');
    expectClose(loss(average, 7.1e6, 16, 6), 20.9, { absolute: 0.1 });
    expectClose(loss(average, 7.1e6, 32, 3), 25.8, { absolute: 0.1 });
  });
});

test('the literature on elevated radials is told as it stands, in disagreement', () => {
  const wire = { conductorDiameterM: 2e-3, outerDiameterM: 2e-3, dielectricConstant: 1, heightM: 3 };
  const advice = elevatedAdvice({ frequencyHz: 7.1e6, wire });
  expect(advice.count).toEqual({ low: 2, high: 12 });
  expect(advice.againstGroundRadialsDb).toEqual({ low: -7, high: 0 });
  expect(advice.findings.map(({ source }) => source).join()).toMatch(/Christman.*Severns/);
  expectClose(advice.velocityFactor, 1, { absolute: 1e-12 });
});
