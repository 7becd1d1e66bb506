/**
 * Source: NIST/SEMATECH e-Handbook of Statistical Methods, sec. 6.3.2.4 (EWMA), the example with λ = 0.3.
 * Status: published.
 * Source: the same, sec. 6.3.2.3 (CUSUM): the sums from the thirteenth value on. Status: published; the data: memory.
 * Source: D. C. Montgomery, Introduction to Statistical Quality Control, example of thirty values: data and parameters.
 * Status: published; where the charts signal: memory, and computed anew.
 * Source: D. C. Montgomery and G. C. Runger, Applied Statistics and Probability for Engineers, tables 16-7 and 16-8,
 * pp. 634–636. Status: published.
 * Source: J. M. Lucas and R. B. Crosier, "Fast Initial Response for CUSUM Quality-Control Schemes", Technometrics
 * 24(3), 199–205, 1982. Status: published.
 *
 * Tolerance: half of the last printed digit.
 */
import { describe, expect, it } from 'vitest';
import { cusumChart } from '../../src/core/drift/cusum.ts';
import { ewmaChart } from '../../src/core/drift/ewma.ts';
import { expectClose } from '../support/expect-close.ts';

const list = (text: string): Float64Array => Float64Array.from(text.trim().split(/\s+/u), Number);

function expectColumn(actual: Float64Array, expected: Float64Array, absolute: number): void {
  expect(actual.length).toBe(expected.length);
  for (let i = 0; i < expected.length; i++) expectClose(actual[i], expected[i] as number, { absolute });
}

const MONTGOMERY = list(`9.45 7.99 9.29 11.66 12.16 10.18 8.04 11.46 9.20 10.34 9.03 11.47 10.51 9.40 10.08
  9.37 10.62 10.31 8.52 10.84 10.90 9.33 12.29 11.50 10.60 11.08 10.38 11.62 11.31 10.52`);

describe('EWMA', () => {
  it('follows the NIST example, its average and its limits', () => {
    const values = list(
      '52 47 53 49.3 50.1 47 51 50.1 51.2 50.5 49.6 47.6 49.9 51.3 47.8 51.2 52.6 52.4 53.6 52.1',
    );
    const chart = ewmaChart(values, { target: 50, standardDeviation: 2.0539, weight: 0.3, limitWidth: 3 });
    expectColumn(
      chart.average,
      list(`50.60 49.52 50.56 50.18 50.16 49.21 49.75 49.85 50.26 50.33 50.11 49.36 49.52 50.05 49.38 49.92 50.73
        51.23 51.94 51.99`),
      0.0051,
    );
    // The handbook prints the steady limits; the exact ones reach them by the last point (0.7^40 is 1e-6).
    expectClose(chart.upperLimit[19], 52.5884, { absolute: 2e-4 });
    expectClose(chart.lowerLimit[19], 47.4115, { absolute: 2e-4 });
    expect(chart.signals).toEqual([]);
  });

  it('signals where Montgomery says, with limits that widen from the start', () => {
    const chart = ewmaChart(MONTGOMERY, { target: 10, standardDeviation: 1, weight: 0.1, limitWidth: 2.7 });
    expectColumn(chart.average.subarray(0, 4), list('9.9450 9.7495 9.7035 9.8992'), 5e-5);
    expectColumn(chart.upperLimit.subarray(0, 4), list('10.2700 10.3632 10.4240 10.4675'), 5e-5);
    expectClose(chart.average[28], 10.6468, { absolute: 5e-5 });
    expect(chart.signals).toEqual([28, 29]);
  });
});

describe('CUSUM', () => {
  it('gives the NIST sums and its signal at the fourteenth value', () => {
    const values =
      list(`324.925 324.675 324.725 324.350 325.350 325.225 324.125 324.525 325.225 324.600 324.625
      325.150 328.325 327.250 327.825 328.500 326.675 327.775 326.875 328.350`);
    const chart = cusumChart(values, { target: 325, slack: 0.3175, limit: 4.1959 });
    expectColumn(chart.high.subarray(12), list('3.01 4.94 7.45 10.63 11.99 14.44 16.00 19.04'), 0.0051);
    expectColumn(chart.low.subarray(0, 4), list('0 0.0075 0 0.3325'), 5e-5);
    expect(chart.signals[0]).toBe(13);
  });

  it('signals at the twenty-ninth value of Montgomery’s thirty', () => {
    const chart = cusumChart(MONTGOMERY, { target: 10, slack: 0.5, limit: 5 });
    expect(chart.signals).toEqual([28, 29]);
    expectClose(chart.high[28], 5.28, { absolute: 0.005 });
    expectClose(chart.low[1], 1.56, { absolute: 0.005 });
  });

  it('agrees in every row with Montgomery and Runger, without a signal', () => {
    const values =
      list(`102.0 94.8 98.3 98.4 102.0 98.5 99.0 97.7 100.0 98.1 101.3 98.7 101.1 98.4 97.0 96.7 100.3
      101.4 97.2 101.0`);
    const chart = cusumChart(values, { target: 99, slack: 1, limit: 10 });
    expectColumn(chart.high, list('2.0 0 0 0 2.0 0.5 0 0 0 0 1.3 0 1.1 0 0 0 0.3 1.7 0 1.0'), 1e-9);
    expectColumn(chart.low, list('0 3.2 2.9 2.5 0 0 0 0.3 0 0 0 0 0 0 1.0 2.3 0 0 0.8 0'), 1e-9);
    expect(chart.signals).toEqual([]);
  });

  it('signals four values sooner with a head start, as Lucas and Crosier show', () => {
    const values = list('0.8 1.9 1.4 2.0 1.1 0.7 2.6');
    const plain = cusumChart(values, { target: 0, slack: 0.5, limit: 5 });
    expectColumn(plain.high, list('0.3 1.7 2.6 4.1 4.7 4.9 7.0'), 1e-9);
    expect(plain.signals).toEqual([6]);
    const quick = cusumChart(values, { target: 0, slack: 0.5, limit: 5, headStart: 2.5 });
    expectColumn(quick.high, list('2.8 4.2 5.1 6.6 7.2 7.4 9.5'), 1e-9);
    expect(quick.signals[0]).toBe(2);
  });
});
