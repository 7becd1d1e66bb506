import type { Point } from '../site.ts';
import type { FreeArea } from './free-area.ts';
import { layRoutes } from './lay-routes.ts';
import type { LyingField } from './planned-field.ts';
import { directionOf, firstHit, type Route, SHORTEST_STRAIGHT_M } from './route.ts';

const STEP_DEG = 1;

/**
 * Lays wires of one length in the directions that the lot leaves open, beside those that lie there.
 * @returns in order of bearing; fewer than asked where no room is left
 */
export function layEvenly(area: FreeArea, count: number, lengthM: number, lying: LyingField): Route[] {
  const bearings = spreadBearings(area, count, lying.bearingsDeg);
  const lengths = Array<number>(bearings.length).fill(lengthM);
  return layRoutes(area, bearings, lengths, chainsOf(lying));
}

/** The chains of points along which wires lie. */
export function chainsOf({ wires }: LyingField): (readonly Point[])[] {
  return wires.map(({ route }) => route);
}

/**
 * Spreads wires evenly over the directions that the lot leaves open, and fills the largest gaps between wires
 * that are there already.
 *
 * @param count - how many wires to add
 * @param existingDeg - bearings of wires that lie there already
 * @returns bearings, degrees clockwise from north, rising; fewer than asked where no two more fit
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
    if (next === null) break;
    chosen.push(next);
    added.push(next);
  }
  return added.sort((a, b) => a - b);
}

/** The open bearing farthest from every chosen one; null when each is taken. */
function farthest(open: readonly number[], chosen: readonly number[]): number | null {
  let best: number | null = null;
  let bestDeg = STEP_DEG / 2;
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
