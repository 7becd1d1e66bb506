import { COPPER, type Conductor } from './conductor.ts';
import type { RadialField } from './radial-field.ts';

/** A field that looks the same from every wire. */
export interface UniformRadials {
  readonly count: number;
  readonly lengthM: number;
  readonly radiusM: number;
  readonly conductor: Conductor;
}

const SAME = 1e-9;

/**
 * The field as an even circle of equal straight wires from the base, in any rotation and order of its
 * bearings, or `null` when it is anything else. Told from the wires themselves, so that it can never
 * disagree with them.
 */
export function asUniform(field: RadialField): UniformRadials | null {
  const first = field.wires[0];
  if (first === undefined) return null;
  const count = field.wires.length;
  const lengthM = endDistance(first.route);
  const bearings: number[] = [];
  for (const { route, radiusM, conductor } of field.wires) {
    const [start, end] = route;
    if (route.length !== 2 || start === undefined || end === undefined) return null;
    if (start[0] !== 0 || start[1] !== 0) return null;
    if (radiusM !== first.radiusM || conductor !== first.conductor) return null;
    if (!(Math.abs(endDistance(route) - lengthM) <= SAME * lengthM)) return null;
    bearings.push(Math.atan2(end[0], end[1]));
  }
  bearings.sort((a, b) => a - b);
  const step = (2 * Math.PI) / count;
  const even = bearings.every(
    (bearing, i) => i === 0 || Math.abs(bearing - (bearings[i - 1] as number) - step) <= SAME,
  );
  if (!even) return null;
  return { count, lengthM, radiusM: first.radiusM, conductor: first.conductor ?? COPPER };
}

function endDistance(route: readonly (readonly [number, number])[]): number {
  const end = route.at(-1) ?? [0, 0];
  return Math.hypot(end[0], end[1]);
}
