import type { Arrangement } from './arrangement.ts';
import type { Filament } from './filament.ts';
import { fieldsPerLoopAmpere } from './radiation.ts';

const NEAREST_M = 0.05;
const FARTHEST_M = 30;
const STEP = 1.05;

/**
 * How far from the open end of a wire in air the electric field stays over a level, m: onward from the tip and to
 * both sides, the farthest of them, from the fields of the whole arrangement. 0.05 m where it is nearer than that.
 *
 * The open end is a thin wire's: a cap or a ball lowers the field beside it, never the voltage.
 *
 * @param levelVPerLoopA - the level over the loop current that is sent, V/m per A
 */
export function endReachM(arrangement: Arrangement, wire: Filament, levelVPerLoopA: number): number {
  const [x, y, z] = wire.start;
  const [ux, uy, uz] = wire.direction;
  // The wires stand upright or lie towards the east, so these three are along one and across it.
  const ways = [
    [ux, uy, uz],
    [uz, 0, ux],
    [0, 1, 0],
  ] as const;
  for (let reachM = FARTHEST_M; reachM > NEAREST_M; reachM /= STEP) {
    for (const [wx, wy, wz] of ways) {
      const east = x + wire.lengthM * ux + reachM * wx;
      const north = y + wire.lengthM * uy + reachM * wy;
      const up = z + wire.lengthM * uz + reachM * wz;
      const { electricVPerM } = fieldsPerLoopAmpere(arrangement, east, north, up);
      if (electricVPerM > levelVPerLoopA) return reachM * STEP;
    }
  }
  return NEAREST_M;
}
