import type { Point } from '../site.ts';
import { asBearing } from './bearings.ts';
import type { FreeArea, Ring } from './free-area.ts';
import { isInside } from './outline.ts';

/** A way for one wire from the base outwards, metres east and north of the base; the first point is the base. */
export interface Route {
  readonly bearingDeg: number;
  readonly points: readonly Point[];
  readonly lengthM: number;
}

/** Where a straight wire meets a border. */
interface BorderHit {
  readonly ring: number;
  readonly edge: number;
  readonly at: Point;
  readonly distanceM: number;
}

/** A way shorter than this at its first bend is not worth a wire, m. */
export const SHORTEST_STRAIGHT_M = 1;

const NEAR_M = 1e-6;
/** Bends after which a wire is no radial any more. */
const MOST_BENDS = 12;

/** Unit vector of a bearing (degrees clockwise from true north) as east and north. */
export function directionOf(bearingDeg: number): Point {
  const angle = (bearingDeg * Math.PI) / 180;
  return [Math.sin(angle), Math.cos(angle)];
}

/** Bearing of a point from the base, degrees clockwise from true north, 0 to below 360. */
export function bearingOf([east, north]: Point): number {
  return asBearing((Math.atan2(east, north) * 180) / Math.PI);
}

/** Length of a chain of points, m. */
export function lengthOf(points: readonly Point[]): number {
  let sum = 0;
  for (let i = 1; i < points.length; i++) sum += distanceM(points[i - 1] as Point, points[i] as Point);
  return sum;
}

/** Where the straight line from a point in a direction first meets a border, or null (never, from inside). */
export function firstHit(area: FreeArea, from: Point, direction: Point): BorderHit | null {
  let best: BorderHit | null = null;
  area.rings.forEach((ring, ringIndex) => {
    for (let edge = 0; edge < ring.length; edge++) {
      const distanceM = meet(from, direction, ring[edge] as Point, corner(ring, edge + 1));
      if (
        distanceM !== null &&
        distanceM > NEAR_M &&
        distanceM < (best?.distanceM ?? Number.POSITIVE_INFINITY)
      ) {
        const at: Point = [from[0] + direction[0] * distanceM, from[1] + direction[1] * distanceM];
        best = { ring: ringIndex, edge, at, distanceM };
      }
    }
  });
  return best;
}

/**
 * Lays a wire: straight while that is possible; where a border blocks it, bent along the border for as long as
 * that leads away from the base; away from the border again, straight out, at the first corner that lets it.
 * It ends where its length is used, or where it could only come nearer to the base again.
 *
 * @param lengthM - the most wire to use
 */
export function layRoute(area: FreeArea, bearingDeg: number, lengthM: number): Route {
  const straight = directionOf(bearingDeg);
  const points: Point[] = [[0, 0]];
  let leftM = lengthM;
  let direction = straight;
  const advance = (to: Point): boolean => {
    const from = points[points.length - 1] as Point;
    const stepM = distanceM(from, to);
    const t = Math.min(1, leftM / stepM);
    if (stepM > NEAR_M) points.push([from[0] + t * (to[0] - from[0]), from[1] + t * (to[1] - from[1])]);
    leftM -= Math.min(leftM, stepM);
    return leftM > NEAR_M;
  };
  for (let bend = 0; bend < MOST_BENDS; bend++) {
    const from = points[points.length - 1] as Point;
    const hit = firstHit(area, from, direction);
    if (hit === null || !advance(hit.at)) break;
    const outward = followBorder(area, hit, advance);
    if (outward === null) break;
    direction = outward;
  }
  return { bearingDeg, points, lengthM: lengthM - leftM };
}

/**
 * Follows a border away from the base by calling `advance` corner by corner.
 * @returns the outward direction at the corner where the wire may leave the border, or null where it ends
 */
function followBorder(area: FreeArea, hit: BorderHit, advance: (to: Point) => boolean): Point | null {
  const ring = area.rings[hit.ring] as Ring;
  let at = hit.at;
  let edge = hit.edge;
  const step = leadsAway(at, corner(ring, edge + 1)) >= leadsAway(at, corner(ring, edge)) ? 1 : -1;
  for (let count = 0; count < ring.length; count++) {
    const next = corner(ring, step > 0 ? edge + 1 : edge);
    if (leadsAway(at, next) <= 0) return null;
    if (!advance(next)) return null;
    at = next;
    edge = (edge + step + ring.length) % ring.length;
    const sizeM = Math.hypot(at[0], at[1]);
    const outward: Point = [at[0] / sizeM, at[1] / sizeM];
    if (isFree(area, [at[0] + outward[0] * 1e-3, at[1] + outward[1] * 1e-3])) return outward;
  }
  return null;
}

/** Cosine between the way to a point and the way away from the base: positive leads away. */
function leadsAway(from: Point, to: Point): number {
  const stepM = distanceM(from, to);
  const fromM = Math.hypot(from[0], from[1]);
  if (stepM < NEAR_M || fromM < NEAR_M) return 0;
  return ((to[0] - from[0]) * from[0] + (to[1] - from[1]) * from[1]) / (stepM * fromM);
}

/** Whether a point lies inside the free area: within an odd number of its rings. */
export function isFree(area: FreeArea, point: Point): boolean {
  return area.rings.reduce((inside, ring) => inside !== isInside(point, ring), false);
}

/** Distance along a ray to a segment, or null when it misses. */
function meet(from: Point, direction: Point, a: Point, b: Point): number | null {
  const [ex, ey] = [b[0] - a[0], b[1] - a[1]];
  const cross = direction[0] * ey - direction[1] * ex;
  if (cross === 0) return null;
  const [ax, ay] = [a[0] - from[0], a[1] - from[1]];
  const along = (ax * ey - ay * ex) / cross;
  const across = (ax * direction[1] - ay * direction[0]) / cross;
  return across >= 0 && across <= 1 ? along : null;
}

function corner(ring: Ring, index: number): Point {
  return ring[(index + ring.length) % ring.length] as Point;
}

/** Distance between two points, m. */
export function distanceM(a: Point, b: Point): number {
  return Math.hypot(b[0] - a[0], b[1] - a[1]);
}
