import type { Point } from '../site.ts';
import type { KnownWire } from './site-radiator.ts';

/** How near one radial comes to a place, over the ground. */
export interface NearWire {
  readonly radial: number;
  readonly distanceM: number;
}

/** The radial whose open end is nearest to a point; null where none is known. */
export function nearestEnd(wires: readonly KnownWire[], point: Point): NearWire | null {
  return nearest(wires, ({ points }) => apartM(points.at(-1) as Point, point));
}

/** The radial of which any part is nearest to a point; null where none is known. */
export function nearestWire(wires: readonly KnownWire[], point: Point): NearWire | null {
  return nearest(wires, ({ points }) =>
    Math.min(
      ...points.map((to, i) => apartM(closestOn(points[Math.max(0, i - 1)] as Point, to, point), point)),
    ),
  );
}

/** How far each straight piece of each wire is from a point, m. */
export function pieceDistancesM(wires: readonly KnownWire[], point: Point): number[] {
  return wires.flatMap(({ points }) =>
    points.slice(1).map((to, i) => apartM(closestOn(points[i] as Point, to, point), point)),
  );
}

function nearest(wires: readonly KnownWire[], distanceTo: (wire: KnownWire) => number): NearWire | null {
  return wires.reduce<NearWire | null>((best, wire) => {
    const distanceM = distanceTo(wire);
    return best !== null && best.distanceM <= distanceM ? best : { radial: wire.radial, distanceM };
  }, null);
}

/** The point of a straight piece that is closest to another. */
function closestOn(from: Point, to: Point, [x, y]: Point): Point {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  const squared = dx * dx + dy * dy;
  const along = squared === 0 ? 0 : ((x - from[0]) * dx + (y - from[1]) * dy) / squared;
  const within = Math.min(1, Math.max(0, along));
  return [from[0] + within * dx, from[1] + within * dy];
}

function apartM(a: Point, b: Point): number {
  return Math.hypot(a[0] - b[0], a[1] - b[1]);
}
