import type { Lot, Point } from '../site.ts';
import { personAt } from './exposure-profile.ts';
import { TOUCH_DISTANCE_M, withinReach } from './keep-off.ts';
import { nearestWire } from './nearest-wire.ts';
import type { KnownWire } from './site-radiator.ts';

/**
 * The radials whose open end comes within arm's reach of the border, where whoever stands beyond can touch it: nobody
 * can ask a neighbour or a passer-by to keep off.
 *
 * @param wireHeightM - at which the wires run, over the ground
 * @returns their numbers, in the order of the wires
 */
export function endsNearBorder(wires: readonly KnownWire[], lot: Lot, wireHeightM: number): number[] {
  if (!withinReach(personAt(0), wireHeightM)) return [];
  const corners = lot.outline.map(([e, n]): Point => [e - lot.base[0], n - lot.base[1]]);
  const border = [{ radial: 0, points: [...corners, corners[0] as Point] }];
  return wires
    .filter(({ points }) => {
      const near = nearestWire(border, points.at(-1) as Point);
      return near !== null && near.distanceM < TOUCH_DISTANCE_M;
    })
    .map(({ radial }) => radial);
}
