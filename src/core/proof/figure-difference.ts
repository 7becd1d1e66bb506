import { firstOrder } from './first-order.ts';
import { monteCarlo } from './monte-carlo.ts';
import type { FigureDifference, Pair } from './pair.ts';

/**
 * Difference of a figure between two visits with its uncertainty: first order where the figure is straight
 * within its errors at both visits, else Monte Carlo.
 *
 * @returns null where the figure cannot be had at both visits, or vanishes under its own errors
 */
export function figureDifference(pair: Pair): FigureDifference | null {
  const { measure, visits } = pair;
  const straight = (['before', 'after'] as const).every(
    (side) => visits[side].sensitivity(measure)?.bent === false,
  );
  return straight ? firstOrder(pair) : monteCarlo(pair);
}
