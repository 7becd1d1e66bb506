import { firstOrder } from './first-order.ts';
import { monteCarlo } from './monte-carlo.ts';
import { type FigureDifference, type Pair, SIDES } from './pair.ts';

/**
 * Difference of a figure between two sides with its uncertainty: first order where the figure is straight
 * within its errors at all visits, else Monte Carlo.
 *
 * @returns null where the figure cannot be had at both sides, or vanishes under its own errors
 */
export function figureDifference(pair: Pair): FigureDifference | null {
  const straight = SIDES.every((side) =>
    pair.sides[side].every(({ visit }) => visit.sensitivity(pair.measure)?.bent === false),
  );
  return straight ? firstOrder(pair) : monteCarlo(pair);
}
