import { COPPER, type Conductor } from './conductor.ts';
import type { RadialField } from './radial-field.ts';

/** A field that looks the same from every wire. */
export interface UniformRadials {
  readonly count: number;
  readonly lengthM: number;
  readonly radiusM: number;
  readonly conductor: Conductor;
}

/** Of the length, by which a wire's end may miss its place on the circle. */
const SAME = 1e-9;

/**
 * The field as an even circle of equal straight wires from the base, clockwise from any bearing, or
 * `null` when it is anything else. Told from the wires themselves, so that it can never disagree with
 * them; quick, since each end is only turned on to the next.
 */
export function asUniform({ wires }: RadialField): UniformRadials | null {
  const first = wires[0];
  let end = wires[wires.length - 1]?.route[1];
  if (first === undefined || end === undefined) return null;
  const count = wires.length;
  const cosine = Math.cos((2 * Math.PI) / count);
  const sine = Math.sin((2 * Math.PI) / count);
  const lengthM = Math.sqrt(end[0] * end[0] + end[1] * end[1]);
  if (!(lengthM > 0)) return null;
  const slack = SAME * lengthM;
  for (const { route, radiusM, conductor } of wires) {
    const [start, next] = route;
    if (route.length !== 2 || start === undefined || next === undefined) return null;
    if (start[0] !== 0 || start[1] !== 0) return null;
    if (radiusM !== first.radiusM || conductor !== first.conductor) return null;
    const eastMiss = end[0] * cosine + end[1] * sine - next[0];
    const northMiss = end[1] * cosine - end[0] * sine - next[1];
    if (!(Math.abs(eastMiss) <= slack && Math.abs(northMiss) <= slack)) return null;
    end = next;
  }
  return { count, lengthM, radiusM: first.radiusM, conductor: first.conductor ?? COPPER };
}
