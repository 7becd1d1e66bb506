/**
 * Source: NIST Statistical Reference Datasets, Analysis of Variance, www.itl.nist.gov/div898/strd. Status: published.
 *
 * Tolerance: twelve digits where the data allow it; AtmWtAg (constant in its leading six digits) nine. The SmLs sets
 * add a constant of seven and thirteen leading digits. What double precision can hold of 1000000000000.4 is
 * 1000000000000.4000244: the data as stored differ from the data as written by up to 6e-5, a 6e-4 part of the spread
 * of 0.1, and no arithmetic brings that back. So the last three sets are checked to 1e-3, and to 1e-12 against the
 * sums of squares of what was stored, worked out exactly in whole multiples of 2^-13.
 */
import { describe, expect, it } from 'vitest';
import { oneWayVariance } from '../../src/core/proof/analysis-of-variance.ts';
import { expectClose } from '../support/expect-close.ts';

const SILICON_RESISTIVITY = [
  [196.3052, 196.124, 196.189, 196.2569, 196.3403],
  [196.3042, 196.3825, 196.1669, 196.3257, 196.0422],
  [196.1303, 196.2005, 196.2889, 196.0343, 196.1811],
  [196.2795, 196.1748, 196.1494, 196.1485, 195.9885],
  [196.2119, 196.1051, 196.185, 196.0052, 196.209],
];

const ATOMIC_WEIGHT_OF_SILVER = [
  [
    107.8681568, 107.8681465, 107.8681572, 107.8681785, 107.8681446, 107.8681903, 107.8681526, 107.8681494,
    107.8681616, 107.8681587, 107.8681519, 107.8681486, 107.8681419, 107.8681569, 107.8681508, 107.8681672,
    107.8681385, 107.8681518, 107.8681662, 107.8681424, 107.868136, 107.8681333, 107.868161, 107.8681477,
  ],
  [
    107.8681079, 107.8681344, 107.8681513, 107.8681197, 107.8681604, 107.8681385, 107.8681642, 107.8681365,
    107.8681151, 107.8681082, 107.8681517, 107.8681448, 107.8681198, 107.8681482, 107.8681334, 107.8681609,
    107.8681101, 107.8681512, 107.8681469, 107.868136, 107.8681254, 107.8681261, 107.868145, 107.8681368,
  ],
];

/** Nine groups; in each the centre, then centre − 0.1 and centre + 0.1 by turns. As NIST generates them. */
function simonLesage(leading: number, perGroup: number): number[][] {
  const text = (tenths: number): number => Number(`${leading + Math.floor(tenths / 10)}.${tenths % 10}`);
  return [14, 13, 15, 13, 15, 13, 15, 13, 15].map((centre) => {
    // From the second digit on the centre repeats 1.4, 1.3, 1.5, …; the leading digits replace the 1.
    const tenths = leading === 0 ? centre : centre - 10;
    return Array.from({ length: perGroup }, (_, i) =>
      text(i === 0 ? tenths : tenths + (i % 2 === 1 ? -1 : 1)),
    );
  });
}

describe('SiRstv', () => {
  const found = oneWayVariance(SILICON_RESISTIVITY);
  it('gives the certified table', () => {
    expect([found.betweenDf, found.withinDf]).toEqual([4, 20]);
    expectClose(found.betweenSumOfSquares, 5.11462616e-2, { relative: 1e-10 });
    expectClose(found.withinSumOfSquares, 2.1663656e-1, { relative: 1e-10 });
    expectClose(found.f, 1.18046237440255, { relative: 1e-10 });
    expectClose(Math.sqrt(found.withinVariance ?? Number.NaN), 1.04076068334656e-1, { relative: 1e-10 });
  });
});

describe('AtmWtAg', () => {
  const found = oneWayVariance(ATOMIC_WEIGHT_OF_SILVER);
  it('gives the certified table', () => {
    expect([found.betweenDf, found.withinDf]).toEqual([1, 46]);
    expectClose(found.betweenSumOfSquares, 3.638341875e-9, { relative: 1e-6 });
    expectClose(found.withinSumOfSquares, 1.04951729166667e-8, { relative: 1e-6 });
    expectClose(found.f, 15.946733567793, { relative: 1e-6 });
  });
});

describe.each([
  ['SmLs01', 0, 21, 21, 1e-12],
  ['SmLs02', 0, 201, 201, 1e-12],
  ['SmLs03', 0, 2001, 2001, 1e-12],
  ['SmLs04', 1e6, 21, 21, 1e-8],
  ['SmLs05', 1e6, 201, 201, 1e-8],
  ['SmLs06', 1e6, 2001, 2001, 1e-8],
  ['SmLs07', 1e12, 21, 21, 1e-3],
  ['SmLs08', 1e12, 201, 201, 1e-3],
  ['SmLs09', 1e12, 2001, 2001, 1e-3],
] as const)('%s', (_name, leading, perGroup, f, relative) => {
  it('gives the certified F and sums of squares as far as double precision holds the data', () => {
    const found = oneWayVariance(simonLesage(leading, perGroup));
    expect([found.betweenDf, found.withinDf]).toEqual([8, 9 * (perGroup - 1)]);
    expectClose(found.f, f, { relative });
    expectClose(found.withinSumOfSquares, 0.01 * 9 * (perGroup - 1), { relative });
  });
});

it('SmLs07 as stored: every digit that double precision kept is used', () => {
  const groups = simonLesage(1e12, 21);
  const unit = 2 ** -13;
  const whole = groups.map((group) => group.map((value) => BigInt(Math.round((value - 1e12) / unit))));
  const sum = (values: readonly bigint[]): bigint => values.reduce((total, value) => total + value, 0n);
  // n·Σx² − (Σx)², over n, is the sum of squares within a group.
  const within = whole.reduce((total, group) => {
    const n = BigInt(group.length);
    return total + Number(n * sum(group.map((x) => x * x)) - sum(group) ** 2n) / Number(n);
  }, 0);
  expectClose(oneWayVariance(groups).withinSumOfSquares, within * unit * unit, { relative: 1e-12 });
});
