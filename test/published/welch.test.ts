/**
 * Source: B. L. Welch, "The generalization of 'Student's' problem when several different population variances are
 * involved", Biometrika 34(1–2), 28–35, 1947; worked in NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.3: t of
 * 12.946 and 136.8750 degrees of freedom for AUTO83B. Status: published.
 * Source: the same handbook, 7.3.1: raw data of two processes; and the counts and deviations of AUTO83B.
 * Status: memory, reproduced by an independent program to the digits below.
 *
 * Tolerance: the last digit given.
 */
import { describe, it } from 'vitest';
import { effectiveDegreesOfFreedom, unpairedDifference } from '../../src/core/proof/welch.ts';
import { expectClose } from '../support/expect-close.ts';

describe('7.3.1, assembly times of two processes (memory)', () => {
  const found = unpairedDifference(
    [32, 37, 35, 28, 41, 44, 35, 31, 34, 38, 42],
    [36, 31, 30, 31, 34, 36, 29, 32, 31],
  );
  it('gives t, degrees of freedom and probability', () => {
    expectClose(found?.t, 2.2693731, { absolute: 1e-7 });
    expectClose(found?.degreesOfFreedom, 15.5325144, { absolute: 1e-7 });
    expectClose(found?.probability, 0.0378795, { absolute: 1e-7 });
  });
});

it('1.3.5.3, AUTO83B from its counts and standard deviations', () => {
  const components = [
    { variance: 6.4147 ** 2 / 249, degreesOfFreedom: 248 },
    { variance: 6.10771 ** 2 / 79, degreesOfFreedom: 78 },
  ];
  const standard = Math.sqrt(components.reduce((sum, { variance }) => sum + variance, 0));
  expectClose(effectiveDegreesOfFreedom(components), 136.875, { absolute: 5e-4 });
  expectClose((30.48101 - 20.14458) / standard, 12.946, { absolute: 5e-4 });
});
