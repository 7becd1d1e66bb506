import { plural } from '../plural.ts';
import { formatDiameter, formatLength, type UnitSystem } from '../quantity.ts';
import { cautionsFor } from '../safety/cautions.ts';
import type { Obstacle, Point, RadialStock } from '../site.ts';
import type { StockCut } from './cutting.ts';
import type { Route } from './route.ts';

/** How deep a radial may lie before it is more an earth electrode than a radial, m (common practice: 1–2 in). */
export const DEEPEST_M = 0.05;

/** Staples are this far apart, in round figures (common practice). */
const STAPLES_APART: Readonly<Record<UnitSystem, string>> = { metric: '0.75 m', imperial: '30 in' };
const STAPLES_APART_M = 0.75;

/**
 * The work in the order in which it is done, with the cautions where they belong.
 *
 * Depth, staples and capped ends are common practice; the cautions carry their own sources.
 *
 * @param routes - planned wires, metres relative to the base
 * @param paths - the lot's paths, in the same coordinates
 */
export function workList(
  routes: readonly Route[],
  cuts: readonly StockCut[],
  allowanceM: number,
  radials: Pick<RadialStock, 'depthM' | 'insulated'> | null,
  paths: readonly Pick<Obstacle, 'name' | 'outline' | 'isLine'>[],
  units: UnitSystem,
): string[] {
  const depthM = radials?.depthM ?? null;
  const crossed = paths.filter(({ outline, isLine }) =>
    routes.some((route) => crosses(route.points, outline, isLine === true)),
  );
  const staples = routes.reduce(
    (sum, route) => sum + Math.max(2, Math.ceil(route.lengthM / STAPLES_APART_M)),
    0,
  );
  return [
    ...cautionsFor('digging', units),
    cutting(routes.length, cuts, allowanceM, units),
    `mark each bearing with a peg before the first wire goes down, then ${layingDown(depthM, units)}`,
    `pin it every ${STAPLES_APART[units]} and at each bend, about ${staples} staples in all, with their heads below the turf: a loop trips people and catches a mower`,
    ...crossed.map(
      ({ name }) =>
        `where a wire crosses "${name}", run it through a pipe or a slit below the surface, never over it`,
    ),
    radials?.insulated === false
      ? 'cap every far end, or bend it back and insulate it: it carries high RF voltage; bare wire in the soil also corrodes faster than insulated wire'
      : 'leave the insulation on and seal every far end: it carries high RF voltage',
    'crimp and solder lugs of the same metal as the wire, bolt them to the plate, and log each handful before the next: `turfwire lay`, then `turfwire measure`',
    ...cautionsFor('laying', units),
    ...cautionsFor('pinning', units),
  ];
}

function layingDown(depthM: number | null, units: UnitSystem): string {
  const deepest = formatDiameter(DEEPEST_M, units);
  if (depthM === null) return `lay the wire on the surface, or slit it in no deeper than ${deepest}`;
  if (depthM === 0) return 'lay the wire on top of the ground, pinned flat';
  const slit = `slit the wire in ${formatDiameter(depthM, units)} deep`;
  return depthM <= DEEPEST_M
    ? slit
    : `${slit}: deeper than ${deepest} it acts more as an earth electrode than as a radial`;
}

function cutting(wires: number, cuts: readonly StockCut[], allowanceM: number, units: UnitSystem): string {
  const extra = `${formatLength(allowanceM, units, 2)} longer than its route, for the run up to the plate, the lug and the far end`;
  return cuts.length === 0
    ? `cut ${plural(wires, 'wire')}, each ${extra}`
    : `cut ${plural(wires, 'wire')} from ${plural(cuts.length, 'piece')} of stock as in the cutting plan, longest first; each is ${extra}`;
}

/** Whether a chain of points enters or crosses a polygon, or a line that is open at both ends. */
export function crosses(points: readonly Point[], outline: readonly Point[], isLine = false): boolean {
  const sides = isLine ? outline.length - 1 : outline.length;
  for (let i = 1; i < points.length; i++) {
    for (let j = 0; j < sides; j++) {
      const a = outline[j] as Point;
      const b = outline[(j + 1) % outline.length] as Point;
      if (segmentsMeet(points[i - 1] as Point, points[i] as Point, a, b)) return true;
    }
  }
  return false;
}

function segmentsMeet(p: Point, q: Point, a: Point, b: Point): boolean {
  const side = (u: Point, v: Point, w: Point): number =>
    (v[0] - u[0]) * (w[1] - u[1]) - (v[1] - u[1]) * (w[0] - u[0]);
  return side(p, q, a) * side(p, q, b) < 0 && side(a, b, p) * side(a, b, q) < 0;
}
