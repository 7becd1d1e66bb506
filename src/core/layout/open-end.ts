import { TOUCH_DISTANCE_M } from '../safety/keep-off.ts';
import type { Point } from '../site.ts';
import { distanceM } from './route.ts';

/** How far the open end of a planned wire keeps from whom it could touch, m: arm's reach, and a pin's play beyond. */
export const END_OFF_PLACES_M: number = TOUCH_DISTANCE_M + 0.01;

/**
 * As much of a wire, from the base outwards, as ends out of arm's reach of every place: along a radial the voltage is
 * highest at its open end, while the rest of it may pass by.
 *
 * @param places - metres relative to the base, as the wire
 * @returns the chain itself where its end is far enough; no more than its beginning where none of it is
 */
export function endOutOfReach(points: readonly Point[], places: readonly Point[]): Point[] {
  const kept = [...points];
  for (;;) {
    const [before, end] = [kept.at(-2), kept.at(-1)];
    const place = places.find(
      (each) => end !== undefined && distanceM(end, each) < END_OFF_PLACES_M - SLACK_M,
    );
    if (before === undefined || end === undefined || place === undefined) return kept;
    kept.pop();
    const entry = entryInto(place, before, end);
    if (entry !== null) kept.push(entry);
  }
}

/** Forgives the last digits of binary arithmetic. */
const SLACK_M = 1e-9;

/** Where a straight piece that ends within reach of a place comes within it; null where it begins within. */
function entryInto(place: Point, from: Point, to: Point): Point | null {
  const pieceM = distanceM(from, to);
  const [east, north] = [(to[0] - from[0]) / pieceM, (to[1] - from[1]) / pieceM];
  const alongM = (place[0] - from[0]) * east + (place[1] - from[1]) * north;
  const asideM = (place[0] - from[0]) * north - (place[1] - from[1]) * east;
  const entryM = alongM - Math.sqrt(Math.max(0, END_OFF_PLACES_M ** 2 - asideM ** 2));
  return entryM > SLACK_M ? [from[0] + entryM * east, from[1] + entryM * north] : null;
}
