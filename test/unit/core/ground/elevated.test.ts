import { describe, expect, test } from 'vitest';
import { elevatedAdvice } from '../../../../src/core/ground/elevated.ts';
import { thirdHarmonic } from '../../../../src/core/ground/third-harmonic.ts';
import { insulatedVelocityFactor, quarterWaveM } from '../../../../src/core/ground/wire-velocity.ts';
import { expectClose } from '../../../support/expect-close.ts';
import { userErrorOf } from '../../../support/user-error-of.ts';

const wire = { conductorDiameterM: 1.6e-3, outerDiameterM: 3e-3, dielectricConstant: 2.5, heightM: 3 };

describe('velocity factor', () => {
  test('is 1 for bare wire and falls with thicker insulation', () => {
    expectClose(insulatedVelocityFactor({ ...wire, outerDiameterM: 1.6e-3 }), 1, { absolute: 1e-12 });
    expect(insulatedVelocityFactor({ ...wire, outerDiameterM: 4e-3 })).toBeLessThan(
      insulatedVelocityFactor(wire),
    );
  });

  test.each([
    [{ ...wire, conductorDiameterM: 0 }, 'not-positive', 'radials.diameter'],
    [{ ...wire, heightM: -1 }, 'not-positive', 'radials.height'],
    [{ ...wire, outerDiameterM: 1e-3 }, 'bad-insulation', 'radials.insulation'],
    [{ ...wire, dielectricConstant: 0.9 }, 'bad-insulation', 'radials.insulation'],
  ])('refuses %o', (bad, code, field) => {
    expect(userErrorOf(() => insulatedVelocityFactor(bad))).toEqual([code, field]);
  });
});

describe('elevated advice', () => {
  test('takes a measured velocity factor over the formula', () => {
    const advice = elevatedAdvice({ frequencyHz: 14.1e6, wire, velocityFactor: 0.95 });
    expectClose(advice.cutLengthM, quarterWaveM(14.1e6, 0.95), { absolute: 0 });
  });

  test('says when the wires are lower than common practice', () => {
    expect(elevatedAdvice({ frequencyHz: 14.1e6, wire: { ...wire, heightM: 1.5 } }).notes.join()).toMatch(
      /lower than common/,
    );
    expect(elevatedAdvice({ frequencyHz: 14.1e6, wire }).notes.join()).not.toMatch(/lower than common/);
  });

  test('refuses a velocity factor above 1', () => {
    expect(userErrorOf(() => elevatedAdvice({ frequencyHz: 14.1e6, wire, velocityFactor: 1.1 }))).toEqual([
      'bad-velocity-factor',
      'radials.velocityFactor',
    ]);
  });
});

test('a third harmonic needs a first', () => {
  expect(userErrorOf(() => thirdHarmonic(0))).toEqual(['not-positive', 'frequency']);
});
