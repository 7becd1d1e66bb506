import { UserError } from '../user-error.ts';
import { COPPER, type Conductor } from './conductor.ts';
import { requirePositive } from './free-space.ts';

/** One wire bonded to the base of the antenna. */
export interface RadialWire {
  /** Corners in metres east and north of the base, from the base outward; at least two. */
  readonly route: readonly (readonly [number, number])[];
  readonly radiusM: number;
  /** Copper unless given. */
  readonly conductor?: Conductor;
}

/** All the wires that lie on or in the ground around the base, in any arrangement. */
export interface RadialField {
  readonly wires: readonly RadialWire[];
}

/** Wires of one length at even spacing over an angle, clockwise from north. */
export interface Sector {
  readonly fromDeg: number;
  readonly toDeg: number;
  readonly count: number;
  readonly lengthM: number;
}

/**
 * Straight wires of one length, evenly around the circle, the first one toward north.
 *
 * @throws UserError `bad-count`, `not-positive`
 */
export function uniformField(
  count: number,
  lengthM: number,
  radiusM: number,
  conductor: Conductor = COPPER,
): RadialField {
  requireCount(count);
  return { wires: spread(count, 0, 360 / count, lengthM, radiusM, conductor) };
}

/**
 * Straight wires in sectors of their own count and length. Each wire lies in the middle of its share
 * of the sector, so that neighbouring sectors of one density join without a seam.
 *
 * @throws UserError `bad-count`, `bad-sector`, `not-positive`
 */
export function sectorField(
  sectors: readonly Sector[],
  radiusM: number,
  conductor: Conductor = COPPER,
): RadialField {
  return {
    wires: sectors.flatMap(({ fromDeg, toDeg, count, lengthM }) => {
      requireCount(count);
      if (!(toDeg > fromDeg) || toDeg - fromDeg > 360) {
        throw new UserError(
          'bad-sector',
          `a sector must end above its start and span at most 360 degrees, got ${fromDeg} to ${toDeg}`,
          { place: { field: 'radials.sector' } },
        );
      }
      const step = (toDeg - fromDeg) / count;
      return spread(count, fromDeg + step / 2, step, lengthM, radiusM, conductor);
    }),
  };
}

/** Length of one wire along its route, m. */
export function wireLengthM(wire: RadialWire): number {
  let length = 0;
  let [fromEast, fromNorth] = wire.route[0] ?? [0, 0];
  for (const [east, north] of wire.route) {
    length += Math.hypot(east - fromEast, north - fromNorth);
    [fromEast, fromNorth] = [east, north];
  }
  return length;
}

/** @throws UserError `no-radials` when there is none: then the loss is the ground rod's, not the field's */
export function requireRadials(field: RadialField): void {
  if (field.wires.length > 0) return;
  throw new UserError(
    'no-radials',
    'at least one radial is needed: with none, the loss is set by the ground rod, which this cannot tell',
    { place: { field: 'radials.count' } },
  );
}

function spread(
  count: number,
  firstDeg: number,
  stepDeg: number,
  lengthM: number,
  radiusM: number,
  conductor: Conductor,
): RadialWire[] {
  requirePositive(radiusM, 'radials.diameter', 'metres');
  if (count > 0) requirePositive(lengthM, 'radials.length', 'metres');
  return Array.from({ length: count }, (_, i) => {
    const bearingRad = ((firstDeg + i * stepDeg) * Math.PI) / 180;
    return {
      route: [
        [0, 0],
        [lengthM * Math.sin(bearingRad), lengthM * Math.cos(bearingRad)],
      ],
      radiusM,
      conductor,
    };
  });
}

function requireCount(count: number): void {
  if (!Number.isInteger(count) || count < 0) {
    throw new UserError('bad-count', `a whole number of radials is needed, got ${count}`, {
      place: { field: 'radials.count' },
    });
  }
}
