import { describe, expect, it } from 'vitest';
import {
  impedanceToReflection,
  mismatchLossDb,
  reflectionSize,
  reflectionToImpedance,
  returnLossDb,
  swrOfReflection,
} from '../../../../src/core/sweep/reflection.ts';
import { expectClose } from '../../../support/expect-close.ts';

describe('what has no value is null, never NaN, Infinity or a negative SWR', () => {
  it.each([
    ['|Γ| = 1 has no SWR', swrOfReflection(1)],
    ['|Γ| above 1 has no SWR', swrOfReflection(1.02)],
    ['an unknown |Γ| has no SWR', swrOfReflection(Number.NaN)],
    ['Γ = 0 has no finite return loss', returnLossDb(0)],
    ['|Γ| above 1 has no return loss', returnLossDb(1.02)],
    ['|Γ| = 1 has no finite mismatch loss', mismatchLossDb(1)],
    ['Z = −R0 has no reflection coefficient', impedanceToReflection({ re: -50, im: 0 }, 50)],
    ['Γ = 1 has no impedance', reflectionToImpedance({ re: 1, im: 0 }, 50)],
  ])('%s', (_, value) => {
    expect(value).toBeNull();
  });

  it('total reflection has a return loss of exactly 0 dB, not −0', () => {
    expect(Object.is(returnLossDb(1), 0)).toBe(true);
    expect(Object.is(mismatchLossDb(0), 0)).toBe(true);
  });

  it('a resistance of 0 reflects everything and a negative one more than everything', () => {
    expectClose(reflectionSize(0, 30, 50), 1, { absolute: 1e-15 });
    expect(reflectionSize(-5, 30, 50)).toBeGreaterThan(1);
  });
});
