import type { LineStyle } from '../model/shown.ts';

type Mark = NonNullable<LineStyle['mark']>;

/** Outline of each mark in a square from −1 to 1, as an SVG path; a canvas takes the same. */
const OUTLINES: Readonly<Record<Mark, string>> = {
  disc: 'M-1 0a1 1 0 1 0 2 0a1 1 0 1 0 -2 0Z',
  ring: 'M-1 0a1 1 0 1 0 2 0a1 1 0 1 0 -2 0Z',
  square: 'M-.9-.9H.9V.9H-.9Z',
  triangle: 'M0-1.1L1.1 .9H-1.1Z',
  diamond: 'M0-1.3L1.1 0L0 1.3L-1.1 0Z',
  cross: 'M-.9-.9L.9 .9M.9-.9L-.9 .9',
};

/** Marks drawn as outlines; the others are filled. */
const OPEN: ReadonlySet<Mark> = new Set(['ring', 'cross']);

export function markPath(mark: Mark): string {
  return OUTLINES[mark];
}

export function isOpenMark(mark: Mark): boolean {
  return OPEN.has(mark);
}

/** Draws a mark on a canvas; `size` is half its width in pixels of the canvas. */
export function drawMark(
  context: CanvasRenderingContext2D,
  mark: Mark,
  x: number,
  y: number,
  size: number,
  colour: string,
): void {
  const outline = new Path2D();
  outline.addPath(new Path2D(OUTLINES[mark]), new DOMMatrix([size, 0, 0, size, x, y]));
  context.fillStyle = colour;
  context.strokeStyle = colour;
  context.lineWidth = size / 2;
  if (OPEN.has(mark)) context.stroke(outline);
  else context.fill(outline);
}
