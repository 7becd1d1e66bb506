import { expect } from 'vitest';

/** How far apart two numbers may be: relative to the expected one, or in its own unit. */
export type Tolerance = { relative: number } | { absolute: number };

/** Asserts that a number is within a stated tolerance of the expected one. NaN never passes. */
export function expectClose(actual: number | null | undefined, expected: number, tolerance: Tolerance): void {
  const allowed = 'relative' in tolerance ? tolerance.relative * Math.abs(expected) : tolerance.absolute;
  const difference = typeof actual === 'number' ? Math.abs(actual - expected) : Number.NaN;
  const close = difference <= allowed;
  expect(close, `expected ${actual} to be within ${allowed} of ${expected}, off by ${difference}`).toBe(true);
}
