import { describe, expect, it } from 'vitest';
import { leastSquares } from '../../../../src/core/proof/least-squares.ts';
import { expectClose } from '../../../support/expect-close.ts';

const XS = [1, 2, 3, 4, 5, 6];

describe('leastSquares', () => {
  it('says that the curve has no value at the start', () => {
    const found = leastSquares({
      start: [-1],
      observed: XS,
      predict: ([a = 0]) => XS.map((x) => Math.log(a) * x),
    });
    expect([found.converged, found.why]).toEqual([false, 'the curve has no value at the start']);
  });

  it('does not call it convergence when two parameters do the same', () => {
    const found = leastSquares({
      start: [1, 1],
      observed: XS.map((x) => 2 * x),
      predict: ([a = 0, b = 0]) => XS.map((x) => (a + b) * x),
    });
    expect(found.covariance === null || !found.converged || (found.covariance[0]?.[0] ?? 0) > 1e6).toBe(true);
  });

  it('takes stated uncertainties at their word: the covariance of a mean is u²/n, whatever the misfit', () => {
    const found = leastSquares({
      start: [0],
      observed: [1, 1, 1, 1],
      uncertainty: [0.2, 0.2, 0.2, 0.2],
      predict: ([a = 0]) => [a, a, a, a],
    });
    expect(found.converged).toBe(true);
    expectClose(found.parameters[0], 1, { absolute: 1e-9 });
    expectClose(found.covariance?.[0]?.[0], 0.01, { relative: 1e-6 });
  });

  it('counts points less that are known less', () => {
    const found = leastSquares({
      start: [0],
      observed: [0, 3],
      uncertainty: [1, 2],
      predict: ([a = 0]) => [a, a],
    });
    expectClose(found.parameters[0], 0.6, { absolute: 1e-9 });
    expectClose(found.sumOfSquares, 0.36 + 1.44, { relative: 1e-9 });
  });
});
