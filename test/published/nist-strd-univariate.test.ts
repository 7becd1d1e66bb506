/**
 * Source: NIST Statistical Reference Datasets, Univariate Summary Statistics, www.itl.nist.gov/div898/strd.
 * Status: published.
 *
 * Tolerance: fourteen digits of means; deviations to what the digits in the data leave: NumAcc3 and NumAcc4 hold 0.1
 * behind seven and eight leading digits, of which double precision keeps nine and eight.
 */
import { describe, it } from 'vitest';
import { mean, standardDeviation } from '../../src/core/proof/summary.ts';
import { expectClose } from '../support/expect-close.ts';

const alternating = (first: string, low: string, high: string): number[] => [
  Number(first),
  ...Array.from({ length: 1000 }, (_, i) => Number(i % 2 === 0 ? low : high)),
];

const MAVRO = [
  2.0018, 2.0017, 2.0018, 2.0019, 2.0018, 2.0017, 2.0015, 2.0014, 2.0015, 2.0015, 2.0017, 2.0018, 2.0018,
  2.0019, 2.0019, 2.0021, 2.002, 2.0016, 2.0014, 2.0013, 2.0013, 2.0015, 2.0015, 2.0016, 2.0015, 2.0014,
  2.0013, 2.0014, 2.0015, 2.0014, 2.0015, 2.0016, 2.0015, 2.0016, 2.0019, 2.002, 2.002, 2.0021, 2.0022,
  2.0023, 2.0024, 2.0025, 2.0027, 2.0026, 2.0026, 2.0026, 2.0027, 2.0026, 2.0025, 2.0024,
];
const MICHELSO = [
  299.85, 299.74, 299.9, 300.07, 299.93, 299.85, 299.95, 299.98, 299.98, 299.88, 300, 299.98, 299.93, 299.65,
  299.76, 299.81, 300, 300, 299.96, 299.96, 299.96, 299.94, 299.96, 299.94, 299.88, 299.8, 299.85, 299.88,
  299.9, 299.84, 299.83, 299.79, 299.81, 299.88, 299.88, 299.83, 299.8, 299.79, 299.76, 299.8, 299.88, 299.88,
  299.88, 299.86, 299.72, 299.72, 299.62, 299.86, 299.97, 299.95, 299.88, 299.91, 299.85, 299.87, 299.84,
  299.84, 299.85, 299.84, 299.84, 299.84, 299.89, 299.81, 299.81, 299.82, 299.8, 299.77, 299.76, 299.74,
  299.75, 299.76, 299.91, 299.92, 299.89, 299.86, 299.88, 299.72, 299.84, 299.85, 299.85, 299.78, 299.89,
  299.84, 299.78, 299.81, 299.76, 299.81, 299.79, 299.81, 299.82, 299.85, 299.87, 299.87, 299.81, 299.74,
  299.81, 299.94, 299.95, 299.8, 299.81, 299.87,
];

describe.each([
  ['NumAcc1', [10000001, 10000003, 10000002], 10000002, 1, 1e-14],
  ['NumAcc2', alternating('1.2', '1.1', '1.3'), 1.2, 0.1, 1e-13],
  ['NumAcc3', alternating('1000000.2', '1000000.1', '1000000.3'), 1000000.2, 0.1, 2e-9],
  ['NumAcc4', alternating('10000000.2', '10000000.1', '10000000.3'), 10000000.2, 0.1, 2e-8],
  ['Mavro', MAVRO, 2.001856, 0.000429123454003053, 1e-12],
  ['Michelso', MICHELSO, 299.8524, 0.0790105478190518, 1e-12],
] as const)('%s', (_name, data, certifiedMean, certifiedDeviation, relative) => {
  it('has the certified mean and standard deviation', () => {
    expectClose(mean(data), certifiedMean, { relative: 1e-14 });
    expectClose(standardDeviation(data), certifiedDeviation, { relative });
  });
});
