import type { Conditions } from './conditions.ts';

/** Differences that count as one: the usual spread of each from visit to visit. Our own choice. */
const USUAL_MOISTURE = 0.05;
const USUAL_TEMPERATURE = 5;
const USUAL_RAIN_M = 0.01;

/**
 * The members nearest to wanted conditions, each figure in units of its usual spread; ties go to the later ones. What was
 * not logged counts as equal.
 *
 * @returns at most so many, in the order given
 */
export function mostAlike<T extends { readonly conditions: Conditions }>(
  members: readonly T[],
  wanted: Conditions,
  most: number,
): T[] {
  if (members.length <= most) return [...members];
  const near = members
    .map(({ conditions }, i) => ({ i, distance: distanceBetween(conditions, wanted) }))
    .sort((a, b) => a.distance - b.distance || b.i - a.i)
    .slice(0, most);
  return near.sort((a, b) => a.i - b.i).map(({ i }) => members[i] as T);
}

function distanceBetween(a: Conditions, b: Conditions): number {
  return (
    apart(a.moisture, b.moisture, USUAL_MOISTURE) +
    apart(a.temperature, b.temperature, USUAL_TEMPERATURE) +
    apart(a.rainM, b.rainM, USUAL_RAIN_M) +
    2 * (1 - Math.cos(a.seasonRad - b.seasonRad))
  );
}

function apart(a: number | null, b: number | null, usual: number): number {
  return a === null || b === null ? 0 : ((a - b) / usual) ** 2;
}
