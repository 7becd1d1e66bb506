import type { UnitSystem } from '../quantity.ts';
import type { Lot, Obstacle, Point } from '../site.ts';
import { type Box, type Pixel, type PlacedNumber, placeEndNumbers } from './end-numbers.ts';
import { type KeyLine, keyLines, SERVICE_DASHES, type WireStanding, wireStyle } from './lot-key.ts';
import { FOOT_LINE_PX, farPlaces, footLine, type Label, labelBox, lotLabels } from './lot-labels.ts';
import { MARGIN_M, PIXELS_PER_M, type Sheet, sheetFor } from './lot-sheet.ts';

/** One wire of the drawing, in metres relative to the base. */
export interface DrawnWire extends WireStanding {
  /** By which the journal knows it, written at its end; null where none does. */
  readonly number: number | null;
  readonly points: readonly Point[];
  readonly label: string;
}

/** A circle of the drawing around the base, such as a keep-out distance; its label is the title of the circle. */
export interface DrawnCircle {
  readonly radiusM: number;
  readonly label: string;
}

/** Ground within a distance of a chain of points, or of one point, relative to the base. */
export interface DrawnKeepOff {
  readonly points: readonly Point[];
  readonly radiusM: number;
}

const COLOURS = {
  ground: '#f4efe2',
  lot: '#dfe8cf',
  building: '#b9a894',
  path: '#d9d2c3',
  water: '#a9c6d6',
  service: '#e7b8a0',
  ink: '#3a2c1e',
  circle: '#8c2f1b',
} as const;

/**
 * The lot to scale as one SVG document: outline, obstacles, wires with their numbers, places and circles, north shown by
 * an arrow, and below it the key of its strokes, the places too far away to be drawn and the numbers that found no room.
 * Colours are never alone: planned wires are dashed, services and water are hatched by their outline's dash.
 * Every text from the user is escaped. Each kind of thing has a class, by which a page can give it other colours.
 */
export function drawLot(
  lot: Lot,
  wires: readonly DrawnWire[],
  options: {
    readonly circles?: readonly DrawnCircle[];
    readonly keepOffs?: readonly DrawnKeepOff[];
    readonly units?: UnitSystem;
    readonly title?: string;
  } = {},
): string {
  const { circles = [], keepOffs = [], units = 'metric', title = 'The lot, to scale' } = options;
  const ends = wires.flatMap(({ points }) => points.slice(-1));
  const sheet = sheetFor(lot, [
    ...circles.flatMap(({ radiusM }) => compassPoints(lot.base, radiusM)),
    ...lot.places.map(({ at }) => at),
    ...ends.map(([e, n]): Point => [e + lot.base[0], n + lot.base[1]]),
  ]);
  const chain = (points: readonly Point[]): string => pairs(points.map(sheet.fromBase));
  const ring = (points: readonly Point[]): string => pairs(points.map(sheet.onLot));
  const [baseX, baseY] = sheet.onLot(lot.base).map(px) as [string, string];
  const labels = lotLabels(lot, sheet);
  const numbers = placedNumbers(wires, lot, sheet, labels);
  const key = keyLines(wires, lot.obstacles, COLOURS.ink);
  const footnotes = [...farPlaces(lot, sheet, units), ...numbersLeftOut(wires, numbers)];
  const heightPx = sheet.heightPx + (key.length + footnotes.length) * FOOT_LINE_PX;
  const parts = [
    `<polygon points="${ring(lot.outline)}" class="lot-turf" fill="${COLOURS.lot}" stroke="${COLOURS.ink}" stroke-width="2"/>`,
    ...lot.obstacles.map(({ kind, outline, isLine }) =>
      isLine === true
        ? `<polyline points="${ring(outline)}" class="lot-line lot-${kind}-line" fill="none" stroke="${kind === 'path' ? COLOURS.path : COLOURS.ink}"${LINE_STYLES[kind]}/>`
        : `<polygon points="${ring(outline)}" class="lot-${kind}" fill="${COLOURS[kind]}" stroke="${COLOURS.ink}"${DASHES[kind]}/>`,
    ),
    ...keepOffArea(keepOffs, chain),
    ...circles.map(
      ({ radiusM, label }) =>
        `<circle class="lot-circle" cx="${baseX}" cy="${baseY}" r="${px(radiusM * PIXELS_PER_M)}" fill="none" stroke="${COLOURS.circle}" stroke-width="2" stroke-dasharray="10 5 2 5"><title>${escapeXml(label)}</title></circle>`,
    ),
    ...wires.map(
      (wire) =>
        `<polyline ${wireStyle(wire)} points="${chain(wire.points)}" fill="none"><title>${escapeXml(wire.label)}</title></polyline>`,
    ),
    ...lot.places.map(({ at }) => {
      const [x, y] = sheet.onLot(at);
      return `<circle class="lot-place" cx="${px(x)}" cy="${px(y)}" r="4" fill="${COLOURS.ink}"/>`;
    }),
    ...labels.map((label) => written(label)),
    ...key.map((line, i) => keyLine(line, i, sheet)),
    ...footnotes.map((words, i) => written(footLine(words, key.length + i, sheet))),
    `<circle class="lot-base" cx="${baseX}" cy="${baseY}" r="6" fill="#fff" stroke="${COLOURS.ink}" stroke-width="3"/>`,
    ...numbers.map(endNumber),
    northArrow(sheet),
    scaleBar(sheet, units),
  ];
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${sheet.widthPx.toFixed(0)} ${heightPx.toFixed(0)}" role="img" font-family="system-ui, sans-serif" fill="${COLOURS.ink}">`,
    `<title>${escapeXml(title)}</title>`,
    `<rect class="lot-ground" width="100%" height="100%" fill="${COLOURS.ground}"/>`,
    ...parts,
    '</svg>',
    '',
  ].join('\n');
}

/** The northernmost, easternmost, southernmost and westernmost points of a circle. */
function compassPoints([e, n]: Point, radiusM: number): Point[] {
  return [
    [e, n + radiusM],
    [e + radiusM, n],
    [e, n - radiusM],
    [e - radiusM, n],
  ];
}

/** The numbers of the wires at their ends, clear of what is written and drawn already. */
function placedNumbers(
  wires: readonly DrawnWire[],
  lot: Lot,
  sheet: Sheet,
  labels: readonly Label[],
): PlacedNumber[] {
  const dots = [lot.base, ...lot.places.map(({ at }) => at)].map((at) => {
    const [x, y] = sheet.onLot(at);
    return { left: x - 9, top: y - 9, right: x + 9, bottom: y + 9 };
  });
  const onDrawing = wires.map(({ number, points }) => ({ number, points: points.map(sheet.fromBase) }));
  const aboveScalePx = sheet.heightPx - MARGIN_M * PIXELS_PER_M;
  const paper = { left: 0, top: 0, right: sheet.widthPx, bottom: aboveScalePx };
  return placeEndNumbers(onDrawing, [...labels.map(labelBox), ...dots, arrowBox(sheet)], paper);
}

/** A number with a rim that parts it from what it stands on. */
function endNumber({ number, centre: [x, y], sizePx }: PlacedNumber): string {
  return written(
    { at: [x, y + 0.36 * sizePx], words: `${number}`, sizePx, anchor: 'middle' },
    `class="lot-number" stroke="${COLOURS.lot}" stroke-width="3" stroke-linejoin="round" paint-order="stroke"`,
  );
}

/** The numbers that found no room at their wires' ends, in words. */
function numbersLeftOut(wires: readonly DrawnWire[], placed: readonly PlacedNumber[]): string[] {
  const drawn = new Set(placed.map(({ number }) => number));
  const left = wires.flatMap(({ number }) => (number === null || drawn.has(number) ? [] : [number]));
  if (left.length === 0) return [];
  if (left.length > placed.length) return ['no room for every number: one radial of five bears its own'];
  return [`no room for the number of ${left.length === 1 ? 'radial' : 'radials'} ${left.join(', ')}`];
}

const KEY_STROKE_PX = 30;

function keyLine({ words, style }: KeyLine, line: number, sheet: Sheet): string {
  const label = footLine(words, line, sheet);
  const [x, y] = label.at;
  const besideStroke: Label = { ...label, at: [x + KEY_STROKE_PX + 6, y] };
  return `<path d="M${px(x)} ${px(y - 4)}h${KEY_STROKE_PX}" fill="none" ${style}/>${written(besideStroke)}`;
}

function written({ at: [x, y], words, sizePx, anchor }: Label, extra = ''): string {
  const anchored = anchor === 'start' ? '' : ` text-anchor="${anchor}"`;
  return `<text x="${px(x)}" y="${px(y)}" font-size="${sizePx}"${anchored} ${extra}>${escapeXml(words)}</text>`;
}

function px(value: number): string {
  return value.toFixed(1);
}

function pairs(points: readonly Pixel[]): string {
  return points.map((point) => point.map(px).join(',')).join(' ');
}

/** One group, so that it is no darker where two overlap; a chain of one point is doubled to be drawn at all. */
function keepOffArea(
  keepOffs: readonly DrawnKeepOff[],
  chain: (points: readonly Point[]) => string,
): string[] {
  if (keepOffs.length === 0) return [];
  const lines = keepOffs.map(({ points, radiusM }) => {
    const widthPx = 2 * radiusM * PIXELS_PER_M;
    return `<polyline points="${chain([points[0] as Point, ...points])}" stroke-width="${widthPx.toFixed(1)}"/>`;
  });
  return [
    `<g class="lot-keep-off" stroke="${COLOURS.circle}" opacity="0.14" fill="none" stroke-linecap="round" stroke-linejoin="round">`,
    ...lines,
    '</g>',
  ];
}

/** Whether a file's text is a drawing by {@link drawLot}. */
export function isLotDrawing(text: string): boolean {
  return text.startsWith('<svg ') && text.includes('<rect class="lot-ground"');
}

const DASHES: Readonly<Record<Obstacle['kind'], string>> = {
  building: '',
  path: ' stroke-width="0.5"',
  water: ' stroke-dasharray="1 3"',
  service: SERVICE_DASHES,
};

/** Of what is told by its way alone; a path is drawn about half a metre wide. */
const LINE_STYLES: Readonly<Record<Obstacle['kind'], string>> = {
  ...DASHES,
  path: ` stroke-width="${0.5 * PIXELS_PER_M}" stroke-linejoin="round"`,
};

const ARROW_M = 0.9;
const ARROW_Y_PX = 40;

function northArrow({ northRad, widthPx }: Sheet): string {
  const x = widthPx - ARROW_M * PIXELS_PER_M;
  const degrees = ((northRad * 180) / Math.PI).toFixed(1);
  return `<g transform="translate(${px(x)} ${ARROW_Y_PX}) rotate(${degrees})"><path d="M0 22V-16M-6 -6L0 -18L6 -6" fill="none" stroke="${COLOURS.ink}" stroke-width="2"/><text x="0" y="-22" font-size="13" text-anchor="middle">N</text></g>`;
}

/** Holds the arrow however it is turned. */
function arrowBox({ widthPx }: Sheet): Box {
  const x = widthPx - ARROW_M * PIXELS_PER_M;
  return { left: x - 20, top: 0, right: widthPx, bottom: ARROW_Y_PX + 24 };
}

function scaleBar({ heightPx }: Sheet, units: UnitSystem): string {
  const lengthM = units === 'metric' ? 5 : 20 * 0.3048;
  const y = heightPx - 0.6 * PIXELS_PER_M;
  const x = MARGIN_M * PIXELS_PER_M;
  const end = x + lengthM * PIXELS_PER_M;
  return `<path d="M${x} ${px(y - 6)}V${px(y)}H${px(end)}V${px(y - 6)}" fill="none" stroke="${COLOURS.ink}" stroke-width="2"/><text x="${x + 6}" y="${px(y - 8)}" font-size="13">${units === 'metric' ? '5 m' : '20 ft'}</text>`;
}

/** Text made harmless inside XML and HTML. */
export function escapeXml(text: string): string {
  return (
    text
      .replaceAll('&', '&amp;')
      .replaceAll('<', '&lt;')
      .replaceAll('>', '&gt;')
      .replaceAll('"', '&quot;')
      .replaceAll("'", '&#39;')
      // biome-ignore lint/suspicious/noControlCharactersInRegex: XML 1.0 allows no control characters
      .replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]/gu, '\ufffd')
  );
}
