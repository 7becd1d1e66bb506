/** A point of the drawing: pixels to the right and downward. */
export type Pixel = readonly [x: number, y: number];

/** An upright box of the drawing, pixels. */
export interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** A wire of the drawing, from the base outwards. */
export interface WireOnDrawing {
  /** Null for one that bears none. */
  readonly number: number | null;
  readonly points: readonly Pixel[];
}

/** Where a number stands: its middle, and the size of its type. */
export interface PlacedNumber {
  readonly number: number;
  readonly centre: Pixel;
  readonly sizePx: number;
}

/** Type in which every wire is numbered, the larger one if it has room. */
const SIZES_PX = [11, 9] as const;

/** A few that found no room are told by those beside them. */
const ENOUGH = 0.85;

/** Where even small type has no room for the numbers, one of so many is told. */
const ONE_OF = 5;

/** From the wire's end to the number, and to one that found no room there, px. */
const GAPS_PX = [3, 10] as const;

/** From the end back along the wire, for a number that stands on it, px. */
const BACK_PX = [12, 24, 36, 48] as const;

/** Ways from the end to its number: straight on, then ever farther round, degrees from the wire's own direction. */
const TURNS_DEG = [0, 40, -40, 80, -80, 120, -120] as const;

/**
 * Places a number at the end of each wire so that none overlaps another or what is written already: every number if
 * they have room, in small type if need be; where most have none, every fifth. None stands nearer to another wire's end
 * than to its own, and places that no wire crosses come first.
 *
 * @param taken - boxes that hold something else
 * @param within - the drawing
 */
export function placeEndNumbers(
  wires: readonly WireOnDrawing[],
  taken: readonly Box[],
  within: Box,
): PlacedNumber[] {
  const drawn = wires.filter(({ points }) => points.length > 1);
  const own = drawn.filter(({ number }) => number !== null);
  const tries = SIZES_PX.map((sizePx) => placeAll(own, drawn, taken, within, sizePx));
  const most = tries.reduce((best, each) => (each.length > best.length ? each : best));
  if (most.length >= ENOUGH * own.length) return most;
  const fifth = own.filter(({ number }) => (number as number) % ONE_OF === 0);
  return placeAll(fifth, drawn, taken, within, SIZES_PX[0]);
}

function placeAll(
  own: readonly WireOnDrawing[],
  wires: readonly WireOnDrawing[],
  taken: readonly Box[],
  within: Box,
  sizePx: number,
): PlacedNumber[] {
  const boxes = [...taken];
  const ends = wires.map(({ points }) => points.at(-1) as Pixel);
  return own.flatMap((wire) => {
    const number = wire.number as number;
    let best: Pixel | null = null;
    let fewest = Number.POSITIVE_INFINITY;
    for (const centre of spotsFor(wire, sizePx)) {
      const box = numberBox(number, centre, sizePx);
      if (!holds(within, box) || boxes.some((other) => overlap(box, other))) continue;
      if (ends.some((end) => apartPx(centre, end) < apartPx(centre, wire.points.at(-1) as Pixel))) continue;
      const crossings = wires.filter(({ points }) => passes(points, box)).length;
      if (crossings < fewest) [best, fewest] = [centre, crossings];
    }
    if (best === null) return [];
    boxes.push(numberBox(number, best, sizePx));
    return [{ number, centre: best, sizePx }];
  });
}

/** Middles of a number around the end of its wire, the best first. */
function spotsFor({ number, points }: WireOnDrawing, sizePx: number): Pixel[] {
  const [end, before] = [points.at(-1) as Pixel, points.at(-2) as Pixel];
  const onward = Math.atan2(end[1] - before[1], end[0] - before[0]);
  const { right, bottom } = numberBox(number as number, [0, 0], sizePx);
  const legPx = apartPx(end, before);
  const onWire = BACK_PX.filter((backPx) => backPx < legPx).map(
    (backPx): Pixel => [end[0] - backPx * Math.cos(onward), end[1] - backPx * Math.sin(onward)],
  );
  const beyond = GAPS_PX.flatMap((gapPx) =>
    TURNS_DEG.map((turnDeg): Pixel => {
      const angle = onward + (turnDeg * Math.PI) / 180;
      const [x, y] = [Math.cos(angle), Math.sin(angle)];
      const away = gapPx + Math.abs(x) * right + Math.abs(y) * bottom;
      return [end[0] + away * x, end[1] + away * y];
    }),
  );
  return [...beyond, ...onWire];
}

/** The box of a number: digits are about 0.6 of their size wide and 0.75 high. */
function numberBox(number: number, [x, y]: Pixel, sizePx: number): Box {
  const [halfWidth, halfHeight] = [0.3 * sizePx * `${number}`.length, 0.38 * sizePx];
  return { left: x - halfWidth, top: y - halfHeight, right: x + halfWidth, bottom: y + halfHeight };
}

function apartPx([ax, ay]: Pixel, [bx, by]: Pixel): number {
  return Math.hypot(ax - bx, ay - by);
}

/** Whether two boxes share any of the drawing. */
export function overlap(a: Box, b: Box): boolean {
  return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}

function holds(outer: Box, inner: Box): boolean {
  return (
    inner.left >= outer.left &&
    inner.right <= outer.right &&
    inner.top >= outer.top &&
    inner.bottom <= outer.bottom
  );
}

/** Whether a chain of points passes through a box. */
function passes(points: readonly Pixel[], box: Box): boolean {
  return points.some((to, i) => i > 0 && enters(points[i - 1] as Pixel, to, box));
}

/** Whether a straight piece has a part within a box: what each pair of sides leaves of it is cut away (Liang and Barsky). */
function enters([fromX, fromY]: Pixel, [toX, toY]: Pixel, { left, top, right, bottom }: Box): boolean {
  const [dx, dy] = [toX - fromX, toY - fromY];
  const cuts: [number, number][] = [
    [-dx, fromX - left],
    [dx, right - fromX],
    [-dy, fromY - top],
    [dy, bottom - fromY],
  ];
  let [first, last] = [0, 1];
  for (const [toward, room] of cuts) {
    if (toward === 0 && room < 0) return false;
    if (toward < 0) first = Math.max(first, room / toward);
    if (toward > 0) last = Math.min(last, room / toward);
  }
  return first <= last;
}
