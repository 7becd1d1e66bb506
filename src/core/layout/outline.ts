import type { Point } from '../site.ts';

/** What is said of a base that stands beyond the border. */
export const BASE_OUTSIDE = 'the base must stand inside the outline of the lot';

/**
 * What is wrong with the corners of an outline, in words that name them from 1 on; null where they go once around
 * without crossing or touching. Corners that stand twice in a row count once.
 */
export function outlineProblem(outline: readonly Point[]): string | null {
  const corners = outline.flatMap((at, i): Corner[] => {
    const [e, n] = outline[(i + 1) % outline.length] as Point;
    return at[0] === e && at[1] === n ? [] : [{ at, number: i + 1 }];
  });
  if (corners.length < 3) return `needs at least 3 different corners, got ${corners.length}`;
  const sides = corners.map((from, i): Side => [from, corners[(i + 1) % corners.length] as Corner]);
  for (let i = 0; i < sides.length; i++) {
    const side = sides[i] as Side;
    const next = sides[(i + 1) % sides.length] as Side;
    if (turnsBack(side, next)) return `${named(next)} runs back over ${named(side)}`;
    // The last side meets the first one at the first corner, as each meets the next.
    const last = i === 0 ? sides.length - 1 : sides.length;
    for (let j = i + 2; j < last; j++) {
      const other = sides[j] as Side;
      const how = meet(side, other);
      if (how !== null) return `${named(side)} ${how} ${named(other)}: the corners must go once around`;
    }
  }
  return null;
}

/** Whether a point lies inside an outline (even–odd rule). */
export function isInside([x, y]: Point, outline: readonly Point[]): boolean {
  let inside = false;
  outline.forEach(([x1, y1], i) => {
    const [x2, y2] = outline[(i + 1) % outline.length] as Point;
    if (y1 > y !== y2 > y && x < x1 + ((y - y1) / (y2 - y1)) * (x2 - x1)) inside = !inside;
  });
  return inside;
}

/** Whether a point lies on an outline itself. */
export function isOnBorder(point: Point, outline: readonly Point[]): boolean {
  return outline.some((from, i) => {
    const to = outline[(i + 1) % outline.length] as Point;
    return leftOf(from, to, point) === 0 && isWithin(point, from, to);
  });
}

/** How wide an outline is on the mean, m: that of a strip is its width. */
export function meanWidthM(outline: readonly Point[]): number {
  let [twiceAreaM2, aroundM] = [0, 0];
  outline.forEach(([x1, y1], i) => {
    const [x2, y2] = outline[(i + 1) % outline.length] as Point;
    twiceAreaM2 += x1 * y2 - x2 * y1;
    aroundM += Math.hypot(x2 - x1, y2 - y1);
  });
  return Math.abs(twiceAreaM2) / aroundM;
}

interface Corner {
  readonly at: Point;
  readonly number: number;
}

type Side = readonly [from: Corner, to: Corner];

function named([from, to]: Side): string {
  return `the side from corner ${from.number} to ${to.number}`;
}

/** On which side of the line through two points a third lies: positive to the left. */
function leftOf(from: Point, to: Point, point: Point): number {
  return (to[0] - from[0]) * (point[1] - from[1]) - (to[1] - from[1]) * (point[0] - from[0]);
}

function turnsBack([{ at: a }, { at: b }]: Side, [, { at: c }]: Side): boolean {
  const along = (b[0] - a[0]) * (c[0] - b[0]) + (b[1] - a[1]) * (c[1] - b[1]);
  return leftOf(a, b, c) === 0 && along < 0;
}

function meet([{ at: a }, { at: b }]: Side, [{ at: c }, { at: d }]: Side): 'crosses' | 'touches' | null {
  const [abc, abd] = [leftOf(a, b, c), leftOf(a, b, d)];
  const [cda, cdb] = [leftOf(c, d, a), leftOf(c, d, b)];
  if (abc * abd < 0 && cda * cdb < 0) return 'crosses';
  const touches =
    (abc === 0 && isWithin(c, a, b)) ||
    (abd === 0 && isWithin(d, a, b)) ||
    (cda === 0 && isWithin(a, c, d)) ||
    (cdb === 0 && isWithin(b, c, d));
  return touches ? 'touches' : null;
}

/** Whether a point on the line through two others lies between them. */
function isWithin([x, y]: Point, [ax, ay]: Point, [bx, by]: Point): boolean {
  return Math.min(ax, bx) <= x && x <= Math.max(ax, bx) && Math.min(ay, by) <= y && y <= Math.max(ay, by);
}
