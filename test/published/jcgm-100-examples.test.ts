/**
 * Source: JCGM 100:2008, Evaluation of measurement data: Guide to the expression of uncertainty in measurement, annex
 * H, examples H.1 (end gauge), H.3 (thermometer, table H.6) and H.5 (analysis of variance). Status: memory; the figures
 * recalled are consistent with each other, which a slip of memory would not leave.
 *
 * Tolerance: half of the last digit given.
 */
import { describe, it } from 'vitest';
import { oneWayVariance } from '../../src/core/proof/analysis-of-variance.ts';
import { straightLine } from '../../src/core/proof/straight-line.ts';
import { studentQuantile } from '../../src/core/proof/student.ts';
import { effectiveDegreesOfFreedom } from '../../src/core/proof/welch.ts';
import { expectClose } from '../support/expect-close.ts';

describe('H.1, end-gauge calibration', () => {
  // Standard uncertainties in nm and their degrees of freedom.
  const components = [
    [25, 18],
    [9.7, 25.6],
    [2.9, 50],
    [16.6, 2],
  ].map(([u = 0, degreesOfFreedom = 0]) => ({ variance: u * u, degreesOfFreedom }));
  const combined = Math.sqrt(components.reduce((sum, { variance }) => sum + variance, 0));

  it('has u = 32 nm, 16 effective degrees of freedom and U99 = 93 nm', () => {
    const freedom = effectiveDegreesOfFreedom(components);
    expectClose(combined, 32, { absolute: 0.5 });
    expectClose(freedom, 16.7, { absolute: 0.1 });
    const factor = studentQuantile(0.995, Math.floor(freedom));
    expectClose(factor, 2.92, { absolute: 0.005 });
    expectClose(factor * 32, 93, { absolute: 0.5 });
  });
});

describe('H.3, calibration of a thermometer', () => {
  const temperatures = [
    21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.01, 26.511,
  ];
  const corrections = [-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.16];
  const line = straightLine(
    temperatures.map((t) => t - 20),
    corrections,
  );

  it('has the line of the guide, to its printed digits', () => {
    expectClose(line?.intercept, -0.1712, { absolute: 5e-5 });
    expectClose(line?.interceptUncertainty, 0.0029, { absolute: 5e-5 });
    expectClose(line?.slope, 0.00218, { absolute: 5e-6 });
    expectClose(line?.slopeUncertainty, 0.00067, { absolute: 5e-6 });
    expectClose(line?.residualDeviation, 0.0035, { absolute: 5e-5 });
  });
});

describe('H.5, a Zener voltage on ten days, five readings a day', () => {
  // Daily means above 10 V and standard deviations, µV; groups of five are made to have just these.
  const days = [
    [172, 60],
    [116, 77],
    [13, 111],
    [144, 101],
    [106, 67],
    [31, 93],
    [60, 80],
    [125, 73],
    [163, 88],
    [41, 86],
  ].map(([mean = 0, deviation = 0]) =>
    [-2, -1, 0, 1, 2].map((step) => mean + (step * deviation) / Math.sqrt(2.5)),
  );
  const table = oneWayVariance(days);

  it('has 128 µV between days, 85 µV within and 43 µV of between-day spread', () => {
    expectClose(Math.sqrt(table.betweenSumOfSquares / table.betweenDf), 128, { absolute: 0.5 });
    expectClose(Math.sqrt(table.withinVariance ?? Number.NaN), 85, { absolute: 0.5 });
    expectClose(table.f, 2.25, { absolute: 0.02 });
    expectClose(Math.sqrt(table.betweenComponent ?? Number.NaN), 43, { absolute: 0.5 });
  });
});
