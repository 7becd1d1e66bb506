import type { FreeArea } from './free-area.ts';
import { type BorderHit, directionOf, firstHit, layRoute, type Route } from './route.ts';

/** A way shorter than this at its first bend is not worth a wire, m. */
export const SHORTEST_STRAIGHT_M = 1;

const STEP_DEG = 1;

/**
 * Spreads wires evenly over the directions that the lot leaves open, and fills the largest gaps between wires
 * that are there already.
 *
 * @param count - how many wires to add
 * @param existingDeg - bearings of wires that lie there already
 * @returns bearings, degrees clockwise from north, rising
 */
export function spreadBearings(area: FreeArea, count: number, existingDeg: readonly number[] = []): number[] {
  const open: number[] = [];
  for (let bearing = 0; bearing < 360; bearing += STEP_DEG) {
    const hit = firstHit(area, [0, 0], directionOf(bearing));
    if (hit !== null && hit.distanceM >= SHORTEST_STRAIGHT_M) open.push(bearing);
  }
  if (open.length === 0) return [];
  if (existingDeg.length === 0) {
    const spacing = open.length / count;
    return Array.from({ length: count }, (_, i) => {
      const place = (i + 0.5) * spacing;
      const index = Math.min(open.length - 1, Math.floor(place));
      return (open[index] as number) + (place - index) * STEP_DEG;
    });
  }
  const chosen = [...existingDeg];
  const added: number[] = [];
  for (let i = 0; i < count; i++) {
    const next = farthest(open, chosen);
    chosen.push(next);
    added.push(next);
  }
  return added.sort((a, b) => a - b);
}

/** The open bearing farthest from every chosen one. */
function farthest(open: readonly number[], chosen: readonly number[]): number {
  let best = open[0] as number;
  let bestDeg = -1;
  for (const bearing of open) {
    let nearestDeg = 360;
    for (const other of chosen) nearestDeg = Math.min(nearestDeg, apartDeg(bearing, other));
    if (nearestDeg > bestDeg) {
      bestDeg = nearestDeg;
      best = bearing;
    }
  }
  return best;
}

function apartDeg(a: number, b: number): number {
  const difference = Math.abs(a - b) % 360;
  return Math.min(difference, 360 - difference);
}

/**
 * Lays wires on given bearings, each bent where it must be, sharing the borders between them.
 * @param lengthsM - the most wire for each bearing
 */
export function layRoutes(
  area: FreeArea,
  bearingsDeg: readonly number[],
  lengthsM: readonly number[],
): Route[] {
  const hits = bearingsDeg.map((bearing, i): BorderHit | null => {
    const hit = firstHit(area, [0, 0], directionOf(bearing));
    return hit !== null && hit.distanceM < (lengthsM[i] as number) ? hit : null;
  });
  return bearingsDeg.map((bearing, i) => {
    const others = hits.filter((hit, j): hit is BorderHit => hit !== null && j !== i);
    return layRoute(area, bearing, lengthsM[i] as number, others);
  });
}
