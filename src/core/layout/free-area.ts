import SimplePointInAreaLocator from 'jsts/org/locationtech/jts/algorithm/locate/SimplePointInAreaLocator.js';
import Coordinate from 'jsts/org/locationtech/jts/geom/Coordinate.js';
import GeometryFactory from 'jsts/org/locationtech/jts/geom/GeometryFactory.js';
import BufferOp from 'jsts/org/locationtech/jts/operation/buffer/BufferOp.js';
import BufferParameters from 'jsts/org/locationtech/jts/operation/buffer/BufferParameters.js';
import DistanceOp from 'jsts/org/locationtech/jts/operation/distance/DistanceOp.js';
import OverlayOp from 'jsts/org/locationtech/jts/operation/overlay/OverlayOp.js';
import { personAt } from '../safety/exposure-profile.ts';
import { withinReach } from '../safety/keep-off.ts';
import type { Lot, Obstacle, Point } from '../site.ts';
import { UserError } from '../user-error.ts';
import { BASE_OUTSIDE, outlineProblem } from './outline.ts';

/** A closed chain of corners, metres east and north of the antenna's base; the last corner joins the first. */
export type Ring = readonly Point[];

/** The ground that a wire may use, seen from the base at [0, 0]: its border and the borders of its holes. */
export interface FreeArea {
  readonly rings: readonly Ring[];
  /** Places from whose height a wire here could be touched: none may end near them. */
  readonly touchedFrom: readonly Point[];
}

/** How far a wire stays from the lot's border, m. */
export const BORDER_CLEARANCE_M = 0.1;

/** A base that is nearer to the border than this stands on it, m. */
const NEAR_BORDER_M = 0.01;

/** A pipe or a cable told as a line has some width, whatever clearance is asked for, m. */
const LEAST_OFF_LINE_M = 0.1;

/** Kinds of obstacle that no wire passes; a path may be crossed below its surface. */
const BLOCKING: ReadonlySet<Obstacle['kind']> = new Set(['building', 'water', 'service']);

/**
 * The part of the lot that wires can reach from the base without crossing the border, a building, water or the
 * keep-off of a buried service. Polygons are cut and grown by a geometry library, corners kept sharp.
 *
 * @param wireHeightM - at which the wires run, over the ground
 * @returns in metres relative to the base
 * @throws UserError `lot-outline-crosses`, `lot-base-outside`, `lot-base-blocked`, naming the field
 */
export function freeArea(lot: Lot, wireHeightM = 0): FreeArea {
  const outline = polygonOf(lot.outline, lot.base, 'lot.outline');
  if (!holdsBase(outline)) {
    throw new UserError('lot-base-outside', BASE_OUTSIDE, { place: { field: 'lot.base' } });
  }
  const toBorderM = DistanceOp.distance(outline.getExteriorRing(), BASE);
  if (toBorderM < NEAR_BORDER_M) {
    const message = 'the base stands on the border of the lot: move it inside, where wires can leave it';
    throw new UserError('lot-base-outside', message, { place: { field: 'lot.base' } });
  }
  let area = grow(outline, -Math.min(BORDER_CLEARANCE_M, toBorderM / 2));
  lot.obstacles.forEach((obstacle, i) => {
    if (!BLOCKING.has(obstacle.kind)) return;
    const field = `lot.obstacles[${i}]`;
    const body = bodyOf(obstacle, lot.base, `${field}.outline`);
    const distanceM: number = DistanceOp.distance(body, BASE);
    const keptM =
      obstacle.isLine === true ? Math.max(LEAST_OFF_LINE_M, obstacle.clearanceM) : obstacle.clearanceM;
    if (distanceM === 0) throw blocked(`the base stands on "${obstacle.name}": move one of them`, field);
    if (obstacle.kind === 'service' && distanceM <= keptM) {
      throw blocked(`the base stands within the clearance of "${obstacle.name}": move one of them`, field);
    }
    // An antenna may lean on the shed it is kept off: half the distance is then the clearance.
    area = OverlayOp.overlayOp(area, grow(body, Math.min(keptM, distanceM / 2)), OverlayOp.DIFFERENCE);
  });
  const touchedFrom = lot.places
    .filter(({ heightM }) => withinReach(personAt(heightM), wireHeightM))
    .map(({ at: [e, n] }): Point => [e - lot.base[0], n - lot.base[1]]);
  return { rings: ringsAround(area), touchedFrom };
}

const FACTORY = new GeometryFactory();
const BASE = FACTORY.createPoint(new Coordinate(0, 0));

// biome-ignore lint/suspicious/noExplicitAny: the geometry library's own types leave its shapes untyped
type Shape = any;

/** What stands in the way: an area, or a line. */
function bodyOf({ outline, isLine }: Obstacle, base: Point, field: string): Shape {
  return isLine === true || outline.length === 2
    ? FACTORY.createLineString(coordinatesOf(outline, base))
    : polygonOf(outline, base, field);
}

function blocked(message: string, field: string): UserError {
  return new UserError('lot-base-blocked', message, { place: { field } });
}

function polygonOf(corners: readonly Point[], base: Point, field: string): Shape {
  const problem = outlineProblem(corners);
  if (problem !== null) throw new UserError('lot-outline-crosses', problem, { place: { field } });
  const ring = coordinatesOf([...corners, corners[0] as Point], base);
  return FACTORY.createPolygon(FACTORY.createLinearRing(ring));
}

function coordinatesOf(points: readonly Point[], base: Point): Coordinate[] {
  return points.map(([e, n]) => new Coordinate(e - base[0], n - base[1]));
}

function holdsBase(shape: Shape): boolean {
  return SimplePointInAreaLocator.isContained(new Coordinate(0, 0), shape);
}

/** The shape grown (or, by a negative distance, shrunk) with sharp corners. */
function grow(shape: Shape, distanceM: number): Shape {
  if (distanceM === 0) return shape;
  const sharp = new BufferParameters(8, BufferParameters.CAP_SQUARE, BufferParameters.JOIN_MITRE, 5);
  return BufferOp.bufferOp(shape, distanceM, sharp);
}

/** The rings of the one part that holds the base. */
function ringsAround(area: Shape): Ring[] {
  for (let i = 0; i < area.getNumGeometries(); i++) {
    const part = area.getGeometryN(i);
    if (!holdsBase(part)) continue;
    const rings = [part.getExteriorRing()];
    for (let hole = 0; hole < part.getNumInteriorRing(); hole++) rings.push(part.getInteriorRingN(hole));
    return rings.map((ring) =>
      ring
        .getCoordinates()
        .slice(0, -1)
        .map(({ x, y }: { x: number; y: number }): Point => [x, y]),
    );
  }
  throw blocked('no free ground is left around the base', 'lot');
}
