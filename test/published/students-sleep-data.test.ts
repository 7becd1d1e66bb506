/**
 * Source: "Student" (W. S. Gosset), "The probable error of a mean", Biometrika 6(1), 1–25, 1908, table of additional
 * hours of sleep gained. Status: memory, reproduced by an independent program to ten digits.
 *
 * Tolerance: the last digit given.
 *
 * The same ten people took both: pairing removes what differs between people, and shows what the unpaired comparison
 * cannot. That is why before and after are compared at the same places and frequencies.
 */
import { expect, it } from 'vitest';
import { pairedDifference, unpairedDifference } from '../../src/core/proof/welch.ts';
import { expectClose } from '../support/expect-close.ts';

const FIRST = [0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0, 2];
const SECOND = [1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4];

it('unpaired, the difference is not shown', () => {
  const found = unpairedDifference(FIRST, SECOND);
  expectClose(found?.t, -1.8608134675, { absolute: 1e-10 });
  expectClose(found?.degreesOfFreedom, 17.7764735, { absolute: 1e-7 });
  expectClose(found?.probability, 0.0793941402, { absolute: 1e-9 });
  const half = found?.expandedUncertainty ?? Number.NaN;
  expectClose((found?.difference ?? Number.NaN) - half, -3.36548323, { absolute: 1e-7 });
  expectClose((found?.difference ?? Number.NaN) + half, 0.20548323, { absolute: 1e-7 });
});

it('paired, it is shown beyond doubt', () => {
  const found = pairedDifference(FIRST, SECOND);
  expectClose(found?.t, -4.0621276834, { absolute: 1e-10 });
  expect(found?.degreesOfFreedom).toBe(9);
  expectClose(found?.probability, 0.0028328902, { absolute: 1e-9 });
});
