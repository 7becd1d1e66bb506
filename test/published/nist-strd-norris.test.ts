/**
 * Source: NIST Statistical Reference Datasets, Linear Regression, set Norris, www.itl.nist.gov/div898/strd.
 * Status: published.
 *
 * Tolerance: ten digits for the exact line; seven for the iterative fit, whose derivatives are central differences.
 */
import { expect, it } from 'vitest';
import { leastSquares } from '../../src/core/proof/least-squares.ts';
import { straightLine } from '../../src/core/proof/straight-line.ts';
import { expectClose } from '../support/expect-close.ts';

const NORRIS: readonly (readonly [x: number, y: number])[] = [
  [0.2, 0.1],
  [337.4, 338.8],
  [118.2, 118.1],
  [884.6, 888],
  [10.1, 9.2],
  [226.5, 228.1],
  [666.3, 668.5],
  [996.3, 998.5],
  [448.6, 449.1],
  [777, 778.9],
  [558.2, 559.2],
  [0.4, 0.3],
  [0.6, 0.1],
  [775.5, 778.1],
  [666.9, 668.8],
  [338, 339.3],
  [447.5, 448.9],
  [11.6, 10.8],
  [556, 557.7],
  [228.1, 228.3],
  [995.8, 998],
  [887.6, 888.8],
  [120.2, 119.6],
  [0.3, 0.3],
  [0.3, 0.6],
  [556.8, 557.6],
  [339.1, 339.3],
  [887.2, 888],
  [999, 998.5],
  [779, 778.9],
  [11.1, 10.2],
  [118.3, 117.6],
  [229.2, 228.9],
  [669.1, 668.4],
  [448.9, 449.2],
  [0.5, 0.2],
];
const xs = NORRIS.map(([x]) => x);
const ys = NORRIS.map(([, y]) => y);

it('Norris: a straight line with its standard deviations', () => {
  const line = straightLine(xs, ys);
  expectClose(line?.intercept, -0.262323073774029, { relative: 1e-10 });
  expectClose(line?.interceptUncertainty, 0.232818234301152, { relative: 1e-10 });
  expectClose(line?.slope, 1.00211681802045, { relative: 1e-12 });
  expectClose(line?.slopeUncertainty, 0.429796848199937e-3, { relative: 1e-10 });
  expectClose(line?.residualDeviation, 0.884796396144373, { relative: 1e-10 });
  expect(line?.degreesOfFreedom).toBe(34);
});

it('Norris: the iterative fit agrees with the exact line', () => {
  const found = leastSquares({
    start: [0, 0.5],
    observed: ys,
    predict: ([b0 = 0, b1 = 0]) => xs.map((x) => b0 + b1 * x),
  });
  expect(found.converged).toBe(true);
  expectClose(found.parameters[0], -0.262323073774029, { relative: 1e-7 });
  expectClose(found.parameters[1], 1.00211681802045, { relative: 1e-9 });
  expectClose(Math.sqrt(found.covariance?.[1]?.[1] ?? Number.NaN), 0.429796848199937e-3, { relative: 1e-7 });
});
