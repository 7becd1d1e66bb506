import { formatLength, type UnitSystem } from '../quantity.ts';
import type { Lot, Point } from '../site.ts';
import type { Box, Pixel } from './end-numbers.ts';
import { PIXELS_PER_M, type Sheet } from './lot-sheet.ts';

/** Words on a drawing. */
export interface Label {
  readonly at: Pixel;
  readonly words: string;
  readonly sizePx: number;
  readonly anchor: 'start' | 'middle' | 'end';
}

/** From a place's dot to its name, px. */
const BESIDE_DOT_PX = 0.3 * PIXELS_PER_M;

/** Height of a line of text below the drawing. */
export const FOOT_LINE_PX = 14;

/** The names of obstacles and places. */
export function lotLabels(lot: Lot, sheet: Sheet): Label[] {
  const obstacles = lot.obstacles.map(
    ({ name, outline }): Label => ({
      at: sheet.onLot(labelSpot(outline, lot.base)),
      words: name,
      sizePx: 13,
      anchor: 'middle',
    }),
  );
  const places = lot.places.map(({ name, at }): Label => {
    const [x, y] = sheet.onLot(at);
    // On the right half the name stands before its dot, so that it stays on the drawing.
    return x > sheet.widthPx / 2
      ? { at: [x - BESIDE_DOT_PX, y], words: name, sizePx: 13, anchor: 'end' }
      : { at: [x + BESIDE_DOT_PX, y], words: name, sizePx: 13, anchor: 'start' };
  });
  return [...obstacles, ...places].map((label) => onPaper(label, sheet));
}

/** Names the places that lie too far outside the lot to be drawn. */
export function farPlaces({ places, base }: Lot, sheet: Sheet, units: UnitSystem): string[] {
  return places
    .filter(({ at }) => !sheet.holds(at))
    .map(
      ({ name, at: [e, n] }) =>
        `not drawn: ${name}, ${formatLength(Math.hypot(e - base[0], n - base[1]), units, 0)} from the base`,
    );
}

/** Words below everything else, a line each. */
export function footLine(words: string, line: number, { heightPx }: Sheet): Label {
  return { at: [BESIDE_DOT_PX, heightPx + line * FOOT_LINE_PX], words, sizePx: 11, anchor: 'start' };
}

/** The box that a label fills: letters are about 0.6 of their size wide. */
export function labelBox({ at: [x, y], words, sizePx, anchor }: Label): Box {
  const widthPx = 0.6 * sizePx * words.length;
  const left = anchor === 'start' ? x : anchor === 'middle' ? x - widthPx / 2 : x - widthPx;
  return { left, top: y - sizePx, right: left + widthPx, bottom: y + 0.3 * sizePx };
}

/** Where an obstacle's name stands: its middle, moved outward along a long one that passes the base. */
function labelSpot(points: readonly Point[], base: Point): Point {
  const sum = points.reduce<Point>(([a, b], [e, n]) => [a + e, b + n], [0, 0]);
  const middle: Point = [sum[0] / points.length, sum[1] / points.length];
  const awayM = (point: Point): number => Math.hypot(point[0] - base[0], point[1] - base[1]);
  const far = points.reduce((best, point) => (awayM(point) > awayM(best) ? point : best));
  if (awayM(far) < 3 * awayM(middle)) return middle;
  return [(middle[0] + far[0]) / 2, (middle[1] + far[1]) / 2];
}

/** Moves a label that would be cut at a side of the paper. */
function onPaper(label: Label, { widthPx }: Sheet): Label {
  const { left, right } = labelBox(label);
  const movePx = Math.max(RIM_PX - left, 0) || Math.min(widthPx - RIM_PX - right, 0);
  return { ...label, at: [label.at[0] + movePx, label.at[1]] };
}

/** White that stays beside words at a side of the paper. */
const RIM_PX = 3;
