import { describe, expect, test } from 'vitest';
import { integrate } from '../../../../src/core/ground/quadrature.ts';
import { expectClose } from '../../../support/expect-close.ts';

const ONE = { components: 1, relativeTolerance: 1e-9 };

describe('integrate', () => {
  test('is exact for a polynomial of degree 22 in one piece, as the 15-point rule must be', () => {
    const { value } = integrate((x, out) => (out[0] = x ** 22), [-1, 1], {
      components: 1,
      relativeTolerance: 1,
    });
    expectClose(value[0], 2 / 23, { relative: 1e-14 });
  });

  test('is exact for degree 5 on narrow pieces, as the 3-point rule must be', () => {
    const breakpoints = Array.from({ length: 41 }, (_, i) => i / 40);
    const { value } = integrate((x, out) => (out[0] = x ** 5), breakpoints, {
      components: 1,
      relativeTolerance: 1,
    });
    expectClose(value[0], 1 / 6, { relative: 1e-14 });
  });

  test('meets its tolerance where the integrand is steep, and the error estimate covers the error', () => {
    const { value, error, converged } = integrate((x, out) => (out[0] = Math.sqrt(x)), [0, 1], ONE);
    expect(converged).toBe(true);
    expect(Math.abs((value[0] as number) - 2 / 3)).toBeLessThanOrEqual(error[0] as number);
    expectClose(value[0], 2 / 3, { relative: 1e-9 });
  });

  test('integrates several components on the same abscissae', () => {
    const { value } = integrate(
      (x, out) => {
        out[0] = Math.sin(x);
        out[1] = Math.exp(x);
      },
      [0, 1, 2],
      { components: 2, relativeTolerance: 1e-9 },
    );
    expectClose(value[0], 1 - Math.cos(2), { relative: 1e-12 });
    expectClose(value[1], Math.exp(2) - 1, { relative: 1e-12 });
  });

  test('says so when it gives up', () => {
    const rough = { ...ONE, maxPieces: 3 };
    expect(integrate((x, out) => (out[0] = Math.sin(1 / x)), [1e-6, 1], rough).converged).toBe(false);
  });

  test('measures its tolerance against the sum with the offset', () => {
    let calls = 0;
    const wave = (x: number, out: Float64Array): void => {
      calls += 1;
      out[0] = Math.sqrt(x);
    };
    integrate(wave, [0, 1], ONE);
    const alone = calls;
    calls = 0;
    integrate(wave, [0, 1], { ...ONE, offset: Float64Array.of(1e6) });
    expect(calls).toBeLessThan(alone);
  });
});
