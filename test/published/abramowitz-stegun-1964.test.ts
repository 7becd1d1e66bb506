/**
 * Source: M. Abramowitz and I. A. Stegun, Handbook of Mathematical Functions, NBS Applied Mathematics Series 55 (1964),
 * chapter 5: table 5.1 (sine and cosine integrals, 10 decimals). Status: memory.
 * Source: the same, section 5.2: eq. numbers from memory; what follows from the definitions is exact. Status: computed.
 *
 * Tolerance: half a unit of the tenth decimal, as printed; for identities, what double precision leaves.
 */
import { describe, expect, test } from 'vitest';
import {
  cosineIntegral,
  EULER_GAMMA,
  entireCosineIntegral,
  sineCosineIntegrals,
  sineIntegral,
} from '../../src/core/ground/sine-cosine-integrals.ts';
import { expectClose } from '../support/expect-close.ts';

describe('table 5.1', () => {
  // Tolerance: half a unit of the tenth decimal, as printed.
  test.each([
    [0.5, 0.493107418, -0.1777840788],
    [1, 0.9460830704, 0.3374039229],
    [2, 1.6054129768, 0.4229808288],
    [5, 1.5499312449, -0.1900297497],
    [10, 1.6583475942, -0.045456433],
  ])('x = %f', (x, si, ci) => {
    expectClose(sineIntegral(x), si, { absolute: 0.5e-10 });
    expectClose(cosineIntegral(x), ci, { absolute: 0.5e-10 });
  });
});

describe('identities', () => {
  test('5.2.2: Ci x = γ + ln x − Cin x on both sides of the change of method', () => {
    for (const x of [0.01, 1, 3.999, 4.001, 30]) {
      expectClose(cosineIntegral(x), EULER_GAMMA + Math.log(x) - entireCosineIntegral(x), {
        absolute: 2e-15,
      });
    }
  });

  test('5.2.19, 5.2.20: Si is odd and Cin is even', () => {
    for (const x of [0.3, 3, 12]) {
      expect(sineIntegral(-x)).toBe(-sineIntegral(x));
      expect(entireCosineIntegral(-x)).toBe(entireCosineIntegral(x));
    }
  });

  test('5.2.25: Si tends to π/2 and Ci to 0', () => {
    expectClose(sineIntegral(1e6), Math.PI / 2, { absolute: 1.01e-6 });
    expectClose(cosineIntegral(1e6), 0, { absolute: 1.01e-6 });
    expect(cosineIntegral(0)).toBe(Number.NEGATIVE_INFINITY);
  });

  test('5.2.8 to 5.2.9: the auxiliary functions keep the derivative f′ = −g over the change of method', () => {
    const auxiliary = (x: number): { f: number; g: number } => {
      const { si, ci } = sineCosineIntegrals(x);
      const rest = si - Math.PI / 2;
      return { f: ci * Math.sin(x) - rest * Math.cos(x), g: -ci * Math.cos(x) - rest * Math.sin(x) };
    };
    for (const x of [2, 4, 9]) {
      const step = 1e-4;
      const slope = (auxiliary(x + step).f - auxiliary(x - step).f) / (2 * step);
      // The central difference of step 1e-4 is good to about 1e-10.
      expectClose(slope, -auxiliary(x).g, { absolute: 1e-9 });
    }
  });
});

// Computed by an arbitrary-precision library at 30 digits; the contract is 1e-14.
test.each([
  [0.001, 0.0009999999444444462, 2.499999895833336e-7],
  [2, 1.6054129768026948, 0.8473820166866132],
  [3.9999, 1.7582220584308408, 2.1044503813550683],
  [4.0001, 1.7581842183061578, 2.1045330635361057],
  [7, 1.4545966142480935, 2.446430535474662],
  [20, 1.54824170104344, 3.5285281176101706],
  [100, 1.5622254668890563, 5.187534676032235],
])('Si(%f) and Cin keep 14 digits', (x, si, cin) => {
  expectClose(sineIntegral(x), si, { relative: 1e-14 });
  expectClose(entireCosineIntegral(x), cin, { relative: 1e-14 });
});
