import type { Lot, Point } from '../site.ts';
import type { Box, Pixel } from './end-numbers.ts';

/** Scale of the drawing. */
export const PIXELS_PER_M = 24;
/** Free space around the lot. */
export const MARGIN_M = 1.5;

/** What lies farther outside the lot than this is left off the drawing, m. */
const FARTHEST_OUTSIDE_M = 10;

/** The paper that a lot is drawn on, to scale: where its points come to lie. */
export interface Sheet {
  /** Clockwise from upward, where north points. */
  readonly northRad: number;
  readonly widthPx: number;
  readonly heightPx: number;
  /** A point in the lot's own coordinates. */
  readonly onLot: (point: Point) => Pixel;
  /** A point relative to the base. */
  readonly fromBase: (point: Point) => Pixel;
  /** Whether a point of the lot lies on the paper. */
  readonly holds: (point: Point) => boolean;
}

/**
 * Paper for a lot with a margin around, and room at the foot for the scale.
 * @param others - points in the lot's coordinates that are to be seen too, as far as they lie near the lot
 */
export function sheetFor(lot: Lot, others: readonly Point[]): Sheet {
  const northRad = (lot.northDeg * Math.PI) / 180;
  // Coordinates are east and north; the drawing is turned by `north` and its y runs downward.
  const turned = ([e, n]: Point): Point => [
    e * Math.cos(northRad) + n * Math.sin(northRad),
    e * Math.sin(northRad) - n * Math.cos(northRad),
  ];
  const corners = lot.outline.map(turned);
  const near = grown(around(corners), FARTHEST_OUTSIDE_M);
  const seen = others.map(turned).filter((point) => isWithin(point, near));
  const paper = grown(around([...corners, ...seen]), MARGIN_M);
  const onLot = (point: Point): Pixel => {
    const [x, y] = turned(point);
    return [(x - paper.left) * PIXELS_PER_M, (y - paper.top) * PIXELS_PER_M];
  };
  return {
    northRad,
    widthPx: (paper.right - paper.left) * PIXELS_PER_M,
    heightPx: (paper.bottom + MARGIN_M - paper.top) * PIXELS_PER_M,
    onLot,
    fromBase: ([e, n]) => onLot([e + lot.base[0], n + lot.base[1]]),
    holds: (point) => isWithin(turned(point), paper),
  };
}

function around(points: readonly Point[]): Box {
  const xs = points.map(([x]) => x);
  const ys = points.map(([, y]) => y);
  return { left: Math.min(...xs), top: Math.min(...ys), right: Math.max(...xs), bottom: Math.max(...ys) };
}

function grown({ left, top, right, bottom }: Box, by: number): Box {
  return { left: left - by, top: top - by, right: right + by, bottom: bottom + by };
}

function isWithin([x, y]: Point, { left, top, right, bottom }: Box): boolean {
  return x >= left && x <= right && y >= top && y <= bottom;
}
