import { UserError } from '../user-error.ts';
import { requirePositive } from './free-space.ts';
import type { RadialField, RadialWire } from './radial-field.ts';

/** Rings nearer than this part of the field's reach are taken as one. */
const SAME_RADIUS = 1e-9;
/** A route may start this far from the base and still count as bonded to it (a plate or a strap), m. */
const FARTHEST_START_M = 1;

/** A part of a wire along which the distance from the base only grows. */
interface Stretch {
  readonly fromM: number;
  readonly toM: number;
  /** Azimuth clockwise from true north that it runs outward in. */
  readonly headingRad: number;
  /** Distance at which its line passes the base; positive when it lies clockwise of its heading. */
  readonly offsetM: number;
  readonly wire: number;
}

/** Where the wires of a field cross a ring around the base. */
interface Crossings {
  readonly count: number;
  /** Azimuths clockwise from true north, rising, in [first, first + 2π). */
  readonly azimuthRad: Float64Array;
  /** Index into the field's wires. */
  readonly wire: Int32Array;
}

/** The geometry of a field seen ring by ring. */
export interface Rings {
  /**
   * Radii at which wires begin, end or turn; rising, to the farthest wire. Inside the first, which is
   * the radius of the thinnest wire, any one wire is as good as a plate.
   */
  readonly breakpointsM: readonly number[];
  readonly reachM: number;
  /** The arrays are reused: read them before the next call. */
  crossings(distanceM: number): Crossings;
}

/**
 * Cuts every route into stretches that run outward only, so that a ring meets each at most once and
 * at an azimuth in closed form: heading + asin(offset/ρ).
 *
 * @throws UserError `bad-route`, `not-positive`
 */
export function fieldRings(field: RadialField): Rings {
  const stretches = field.wires.flatMap(wireStretches);
  stretches.sort((a, b) => a.headingRad - b.headingRad);
  const reachM = stretches.reduce((most, { toM }) => Math.max(most, toM), 0);
  const radii = Float64Array.from(stretches.flatMap(({ fromM, toM }) => [fromM, toM])).sort();
  const breakpointsM = [plateM(field, reachM)];
  let last = breakpointsM[0] as number;
  for (const radius of radii) {
    if (radius - last <= SAME_RADIUS * reachM) continue;
    breakpointsM.push(radius);
    last = radius;
  }
  const azimuthRad = new Float64Array(stretches.length);
  const wire = new Int32Array(stretches.length);
  return {
    breakpointsM,
    reachM,
    crossings(distanceM) {
      let count = 0;
      for (const stretch of stretches) {
        if (distanceM < stretch.fromM || distanceM >= stretch.toM) continue;
        const here = azimuth(stretch, distanceM);
        let place = count;
        for (; place > 0 && (azimuthRad[place - 1] as number) > here; place -= 1) {
          azimuthRad[place] = azimuthRad[place - 1] as number;
          wire[place] = wire[place - 1] as number;
        }
        azimuthRad[place] = here;
        wire[place] = stretch.wire;
        count += 1;
      }
      return { count, azimuthRad, wire };
    },
  };
}

/** Radius of the thinnest wire. */
function plateM(field: RadialField, reachM: number): number {
  return field.wires.reduce((least, { radiusM }) => Math.min(least, radiusM), reachM / 2);
}

/** Azimuth at which the stretch crosses a ring, in [0, 2π). */
function azimuth(stretch: Stretch, distanceM: number): number {
  const { headingRad, offsetM } = stretch;
  return offsetM === 0
    ? headingRad
    : aroundCircle(headingRad + Math.asin(Math.max(-1, Math.min(1, offsetM / distanceM))));
}

function aroundCircle(angleRad: number): number {
  return angleRad - 2 * Math.PI * Math.floor(angleRad / (2 * Math.PI));
}

function wireStretches({ route, radiusM }: RadialWire, wire: number): Stretch[] {
  requirePositive(radiusM, 'radials.diameter', 'metres');
  const start = route[0];
  if (route.length < 2 || start === undefined || route.some((point) => !point.every(Number.isFinite))) {
    throw badRoute(wire, 'a route of at least two points in metres is needed');
  }
  if (Math.hypot(...start) > FARTHEST_START_M) {
    const startM = Math.hypot(...start).toFixed(1);
    throw badRoute(wire, `a route must start within ${FARTHEST_START_M} m of the base, got ${startM} m`);
  }
  const stretches: Stretch[] = [];
  let [east, north] = [0, 0];
  for (const [toEast, toNorth] of route) {
    stretches.push(...segmentStretches(east, north, toEast, toNorth, wire));
    [east, north] = [toEast, toNorth];
  }
  if (stretches.length === 0) throw badRoute(wire, 'a route that leaves the base is needed');
  return stretches;
}

function segmentStretches(
  east: number,
  north: number,
  toEast: number,
  toNorth: number,
  wire: number,
): Stretch[] {
  const length = Math.hypot(toEast - east, toNorth - north);
  if (length === 0) return [];
  const eastward = (toEast - east) / length;
  const northward = (toNorth - north) / length;
  const along = east * eastward + north * northward;
  const offsetM = east * northward - north * eastward;
  const headingRad = Math.atan2(eastward, northward);
  const foot = Math.abs(offsetM);
  const near = Math.hypot(east, north);
  const far = Math.hypot(toEast, toNorth);
  const outward = (fromM: number, toM: number): Stretch => ({
    fromM,
    toM,
    headingRad: aroundCircle(headingRad),
    offsetM,
    wire,
  });
  const inward = (fromM: number, toM: number): Stretch => ({
    fromM,
    toM,
    headingRad: aroundCircle(headingRad + Math.PI),
    offsetM: -offsetM,
    wire,
  });
  if (along >= 0) return [outward(near, far)];
  if (along + length <= 0) return [inward(far, near)];
  return [inward(foot, near), outward(foot, far)];
}

function badRoute(wire: number, message: string): UserError {
  return new UserError('bad-route', `radial ${wire + 1}: ${message}`, { place: { field: 'radials.route' } });
}
