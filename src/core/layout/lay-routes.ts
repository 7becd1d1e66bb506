import type { Point } from '../site.ts';
import type { FreeArea } from './free-area.ts';
import { endOutOfReach } from './open-end.ts';
import { distanceM, layRoute, lengthOf, type Route, SHORTEST_STRAIGHT_M } from './route.ts';

/**
 * How far a wire keeps from every other one where they do not fan out from the base, m. Wires nearer than this share
 * their current and work as one; the densest field that any handbook tabulates has its ends farther apart.
 */
export const APART_M = 0.2;

/** A wire for which there is no room any more is cut this short of the exact place, m. */
const STEP_M = 0.01;

/**
 * Lays wires on given bearings, each bent where it must be, and all kept apart from one another and from what lies
 * there. First every wire's straight way from the base is fixed; of two whose ends would crowd, the longer stays. Then
 * each is led on along its borders, in order of bearing, until it would come within {@link APART_M} of another wire. None
 * ends within arm's reach of a place: such a one ends earlier.
 *
 * @param lengthsM - the most wire for each bearing
 * @param laid - chains of points of wires that lie there, from the base outwards
 * @returns in order of bearing; fewer than asked where no room is left
 */
export function layRoutes(
  area: FreeArea,
  bearingsDeg: readonly number[],
  lengthsM: readonly number[],
  laid: readonly (readonly Point[])[] = [],
): Route[] {
  const bends = laid.map(withoutFirstLeg);
  const fans = laid.map(firstLeg);
  const wished = bearingsDeg.map((bearing, i): Fixed => {
    const wish = layRoute(area, bearing, lengthsM[i] as number);
    const straight = clear(firstLeg(wish.points), bends);
    return { wish, straight, straightM: lengthOf(straight) };
  });
  const kept: Fixed[] = [];
  for (const fixed of wished.sort((a, b) => b.straightM - a.straightM)) {
    const { straight, straightM } = fixed;
    if (straightM < SHORTEST_STRAIGHT_M || nearest(straight.at(-1) as Point, fans) < APART_M) continue;
    fans.push(straight);
    kept.push(fixed);
  }
  const routes: Route[] = [];
  for (const { wish, straight, straightM } of kept.sort((a, b) => a.wish.bearingDeg - b.wish.bearingDeg)) {
    const cutShort = straightM < lengthOf(firstLeg(wish.points));
    const others = [...fans.filter((fan) => fan !== straight), ...bends];
    const on = cutShort ? [] : clear(withoutFirstLeg(wish.points), others).slice(1);
    const points = endOutOfReach([...straight, ...on], area.touchedFrom);
    const lengthM = lengthOf(points);
    if (lengthM < SHORTEST_STRAIGHT_M) continue;
    if (points.length > 2) bends.push(withoutFirstLeg(points));
    routes.push({ bearingDeg: wish.bearingDeg, points, lengthM });
  }
  return routes;
}

/** A wire whose straight way from the base is fixed. */
interface Fixed {
  /** How it would run if it were alone. */
  readonly wish: Route;
  readonly straight: Point[];
  readonly straightM: number;
}

/** The straight way from the base. */
function firstLeg(points: readonly Point[]): Point[] {
  return points.slice(0, 2);
}

/** A wire from its first bend on. */
function withoutFirstLeg(points: readonly Point[]): Point[] {
  return points.slice(1);
}

/**
 * As much of a chain, from its beginning, as keeps apart from others. It advances by the distance that is known to be
 * clear, so that open ground costs one step.
 */
function clear(chain: readonly Point[], others: readonly (readonly Point[])[]): Point[] {
  const points = chain.slice(0, 1);
  for (let i = 1; i < chain.length; i++) {
    const [from, to] = [chain[i - 1] as Point, chain[i] as Point];
    const legM = distanceM(from, to);
    for (let doneM = 0; ; ) {
      const at = between(from, to, doneM / legM);
      const clearM = nearest(at, others) - APART_M;
      if (clearM < 0) {
        const backM = Math.max(0, doneM - STEP_M);
        return backM > STEP_M ? [...points, between(from, to, backM / legM)] : points;
      }
      if (doneM >= legM) break;
      doneM = Math.min(legM, doneM + Math.max(clearM, STEP_M));
    }
    points.push(to);
  }
  return points;
}

function nearest(point: Point, chains: readonly (readonly Point[])[]): number {
  let nearestM = Number.POSITIVE_INFINITY;
  for (const chain of chains) nearestM = Math.min(nearestM, distanceToChainM(point, chain));
  return nearestM;
}

/** Distance of a point from a chain of points, m; infinite for a chain of fewer than two. */
export function distanceToChainM([x, y]: Point, chain: readonly Point[]): number {
  let nearestM = Number.POSITIVE_INFINITY;
  for (let i = 1; i < chain.length; i++) {
    const [ax, ay] = chain[i - 1] as Point;
    const [bx, by] = chain[i] as Point;
    const [ex, ey] = [bx - ax, by - ay];
    const along = Math.min(1, Math.max(0, ((x - ax) * ex + (y - ay) * ey) / (ex * ex + ey * ey || 1)));
    nearestM = Math.min(nearestM, Math.hypot(x - ax - along * ex, y - ay - along * ey));
  }
  return nearestM;
}

function between(from: Point, to: Point, share: number): Point {
  return [from[0] + share * (to[0] - from[0]), from[1] + share * (to[1] - from[1])];
}
