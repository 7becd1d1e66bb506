/**
 * Source: P. K. Sen, "Estimates of the regression coefficient based on Kendall's tau", J. American Statistical
 * Association 63, 1379–1389, 1968, the example: slope and limits. Status: published.
 * Source: M. G. Kendall, Rank Correlation Methods: variance of S. Status: published for the formula; the figures for
 * Sen's data are computed.
 * Source: NIST Statistical Reference Datasets, Univariate Summary Statistics, sets Mavro and NumAcc2,
 * www.itl.nist.gov/div898/strd: certified lag-1 autocorrelation. Status: published.
 *
 * Tolerance: half of the last digit given; eight digits of Mavro, whose values share their first four.
 */
import { describe, expect, it } from 'vitest';
import { lagOneAutocorrelation, longRunFactor } from '../../src/core/drift/autocorrelation.ts';
import { mannKendall } from '../../src/core/drift/mann-kendall.ts';
import { theilSen } from '../../src/core/drift/theil-sen.ts';
import { expectClose } from '../support/expect-close.ts';

const X = Float64Array.of(1, 2, 3, 4, 10, 12, 18);
const Y = Float64Array.of(9, 15, 19, 20, 45, 55, 78);

const MAVRO = Float64Array.from(
  `180 170 180 190 180 170 150 140 150 150 170 180 180 190 190 210 200 160 140 130 130 150 150 160 150 140 130 140 150
  140 150 160 150 160 190 200 200 210 220 230 240 250 270 260 260 260 270 260 250 240`.split(/\s+/u),
  (digits) => 2 + Number(digits) / 1e5,
);

describe('the trend of Sen’s example', () => {
  it('has the slope 4 and the 93 per cent limits 3.71 and 4.38', () => {
    const trend = theilSen(X, Y, 0.93);
    expectClose(trend?.slope, 4, { relative: 1e-12 });
    expectClose(trend?.interval?.[0], 3.71, { absolute: 0.005 });
    expectClose(trend?.interval?.[1], 4.38, { absolute: 0.0051 });
  });

  it('as a series has S 21, tau 1 and Z 3.003757', () => {
    const test = mannKendall(Y);
    expect(test.s).toBe(21);
    expect(test.tau).toBe(1);
    expectClose(test.variance, 44.3333, { absolute: 5e-5 });
    expectClose(test.z, 3.003757, { absolute: 5e-7 });
    expectClose(test.p, 0.0026667, { absolute: 1e-7 });
  });

  it('of three values with a tie is the median of three slopes', () => {
    expect(theilSen(Float64Array.of(0, 1, 2), Float64Array.of(0, 1, 1))?.slope).toBe(0.5);
  });
});

describe('memory in a series', () => {
  it('of Mavro is 0.937989183438248, and takes nearly all worth from its 50 values', () => {
    expectClose(lagOneAutocorrelation(MAVRO), 0.937989183438248, { absolute: 1e-8 });
    expect(longRunFactor(MAVRO)).toBeGreaterThan(15);
  });

  it('of an alternating series (NumAcc2’s pattern) is -0.999 and does not count', () => {
    const values = Float64Array.from({ length: 1001 }, (_, i) => (i === 0 ? 1.2 : i % 2 === 1 ? 1.1 : 1.3));
    expectClose(lagOneAutocorrelation(values), -0.999, { absolute: 1e-9 });
    expect(longRunFactor(values)).toBe(1);
  });
});
