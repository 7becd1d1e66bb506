import { isInside } from '../layout/outline.ts';
import type { Lot, Point } from '../site.ts';
import { nearestWire } from './nearest-wire.ts';
import type { KnownWire } from './site-radiator.ts';

/** Numbers of the radials that whoever stands beyond the border can come too near to, in the order of the wires. */
export interface WiresAtBorder {
  /** Their open end lies nearer to the border than people keep off, or beyond it. */
  readonly ends: readonly number[];
  /** Those of them whose open end lies beyond it. */
  readonly beyond: readonly number[];
  /** Some other part of them that can be touched comes as near. */
  readonly passing: readonly number[];
}

/**
 * The radials that end, or can be touched, so near the border that nobody can keep others off: no one can ask that of
 * a neighbour or a passer-by. Which wires hang out of reach is for the caller to know.
 *
 * @param keepOffM - how far people stay from the wires
 * @param touchableAlong - whether wires can be touched all along, and not at their ends alone
 */
export function wiresAtBorder(
  wires: readonly KnownWire[],
  lot: Lot,
  keepOffM: number,
  touchableAlong: boolean,
): WiresAtBorder {
  const corners = lot.outline.map((corner) => fromBase(corner, lot));
  const border = borderOf(corners);
  const isBeyond = (point: Point) => !isInside(point, corners);
  const isAt = (point: Point) =>
    isBeyond(point) || (nearestWire(border, point)?.distanceM ?? Number.POSITIVE_INFINITY) < keepOffM;
  const numbersOf = (those: readonly KnownWire[]) => those.map(({ radial }) => radial);
  const ends = wires.filter(({ points }) => isAt(points.at(-1) as Point));
  return {
    ends: numbersOf(ends),
    beyond: numbersOf(ends.filter(({ points }) => isBeyond(points.at(-1) as Point))),
    passing: touchableAlong
      ? numbersOf(wires.filter((wire) => !ends.includes(wire) && pointsAlong(wire).some(isAt)))
      : [],
  };
}

/** How far the base stands from the border, m. */
export function baseToBorderM(lot: Lot): number {
  const border = borderOf(lot.outline.map((corner) => fromBase(corner, lot)));
  return nearestWire(border, [0, 0])?.distanceM ?? 0;
}

function borderOf(corners: readonly Point[]): KnownWire[] {
  return [{ radial: 0, points: [...corners, corners[0] as Point] }];
}

function fromBase([east, north]: Point, { base }: Lot): Point {
  return [east - base[0], north - base[1]];
}

/** So close that a distance is out by half a millimetre at arm's reach. */
const STEP_M = 0.05;

function pointsAlong({ points }: KnownWire): Point[] {
  return points.slice(1).flatMap(([x, y], i) => {
    const [fromX, fromY] = points[i] as Point;
    const steps = Math.max(1, Math.ceil(Math.hypot(x - fromX, y - fromY) / STEP_M));
    return Array.from({ length: steps + 1 }, (_, j): Point => {
      const part = j / steps;
      return [fromX + part * (x - fromX), fromY + part * (y - fromY)];
    });
  });
}
