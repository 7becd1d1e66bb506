import { formatLength, type UnitSystem } from '../quantity.ts';
import type { Radial } from '../record.ts';
import type { Lot, Obstacle, Point } from '../site.ts';
import { laidRoutes } from './planned-field.ts';

/** One wire of the drawing, in metres relative to the base. */
export interface DrawnWire {
  readonly points: readonly Point[];
  /** `planned` is dashed; laid wires grow darker with age (0 the newest, 1 the oldest). */
  readonly state: 'planned' | 'laid';
  readonly age: number;
  readonly label: string;
}

/** A circle of the drawing around the base, such as a keep-out distance. */
export interface DrawnCircle {
  readonly radiusM: number;
  readonly label: string;
}

/** Ground within a distance of a chain of points, or of one point, relative to the base. */
export interface DrawnKeepOff {
  readonly points: readonly Point[];
  readonly radiusM: number;
}

const MARGIN_M = 1.5;
const PIXELS_PER_M = 24;

const COLOURS = {
  ground: '#f4efe2',
  lot: '#dfe8cf',
  building: '#b9a894',
  path: '#d9d2c3',
  water: '#a9c6d6',
  service: '#e7b8a0',
  ink: '#3a2c1e',
  planned: '#9c5a1b',
  circle: '#8c2f1b',
} as const;

/**
 * The lot to scale as one SVG document: outline, obstacles, wires, places and circles, north shown by an arrow.
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
  const turn = (lot.northDeg * Math.PI) / 180;
  // Coordinates are east and north; the drawing is turned by `north` and its y runs downward.
  const place = ([e, n]: Point): Point => [
    e * Math.cos(turn) + n * Math.sin(turn),
    e * Math.sin(turn) - n * Math.cos(turn),
  ];
  const fromBase = ([e, n]: Point): Point => place([e + lot.base[0], n + lot.base[1]]);
  const corners = lot.outline.map(place);
  const left = Math.min(...corners.map(([x]) => x)) - MARGIN_M;
  const top = Math.min(...corners.map(([, y]) => y)) - MARGIN_M;
  const width = Math.max(...corners.map(([x]) => x)) - left + MARGIN_M;
  const height = Math.max(...corners.map(([, y]) => y)) - top + 2 * MARGIN_M;
  const pixel = ([x, y]: Point): string =>
    `${((x - left) * PIXELS_PER_M).toFixed(1)},${((y - top) * PIXELS_PER_M).toFixed(1)}`;
  const chain = (points: readonly Point[]): string => points.map((point) => pixel(fromBase(point))).join(' ');
  const ring = (points: readonly Point[]): string => points.map((point) => pixel(place(point))).join(' ');
  const text = (at: Point, words: string, size = 13, extra = ''): string => {
    const [x, y] = pixel(at).split(',');
    return `<text x="${x}" y="${y}" font-size="${size}" ${extra}>${escapeXml(words)}</text>`;
  };
  const [baseX, baseY] = pixel(place(lot.base)).split(',');
  const parts = [
    `<polygon points="${ring(lot.outline)}" class="lot-turf" fill="${COLOURS.lot}" stroke="${COLOURS.ink}" stroke-width="2"/>`,
    ...lot.obstacles.map(
      ({ kind, outline }) =>
        `<polygon points="${ring(outline)}" class="lot-${kind}" fill="${COLOURS[kind]}" stroke="${COLOURS.ink}"${DASHES[kind]}/>`,
    ),
    ...keepOffArea(options.keepOffs ?? [], chain),
    ...(options.circles ?? []).map(
      ({ radiusM }) =>
        `<circle class="lot-circle" cx="${baseX}" cy="${baseY}" r="${(radiusM * PIXELS_PER_M).toFixed(1)}" fill="none" stroke="${COLOURS.circle}" stroke-width="2" stroke-dasharray="10 5 2 5"/>`,
    ),
    ...wires.map(({ points, state, age, label }) => {
      const style =
        state === 'planned'
          ? `stroke="${COLOURS.planned}" stroke-dasharray="7 4"`
          : `stroke="hsl(24 60% ${(45 - 25 * age).toFixed(0)}%)"`;
      return `<polyline class="lot-wire lot-${state}" points="${chain(points)}" fill="none" stroke-width="2" ${style}><title>${escapeXml(label)}</title></polyline>`;
    }),
    ...lot.obstacles.map(({ name, outline }) =>
      text(place(labelSpot(outline, lot.base)), name, 13, 'text-anchor="middle"'),
    ),
    ...lot.places.map(({ name, at }) => {
      const [x, y] = place(at);
      const dot = `<circle class="lot-place" cx="${pixel([x, y]).replace(',', '" cy="')}" r="4" fill="${COLOURS.ink}"/>`;
      // On the right half the name stands before its dot, so that it stays on the drawing.
      return x - left > width / 2
        ? dot + text([x - 0.3, y], name, 13, 'text-anchor="end"')
        : dot + text([x + 0.3, y], name);
    }),
    `<circle class="lot-base" cx="${baseX}" cy="${baseY}" r="6" fill="#fff" stroke="${COLOURS.ink}" stroke-width="3"/>`,
    ...(options.circles ?? []).map(({ radiusM, label }, i) =>
      text(
        fromBase([0, 0 - radiusM - 0.15 * i]),
        label,
        12,
        `class="lot-circle-label" text-anchor="middle" fill="${COLOURS.circle}"`,
      ),
    ),
    northArrow(turn, width),
    scaleBar(height, options.units ?? 'metric'),
  ];
  const title = options.title ?? 'The lot, to scale';
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${(width * PIXELS_PER_M).toFixed(0)} ${(height * PIXELS_PER_M).toFixed(0)}" role="img" font-family="system-ui, sans-serif" fill="${COLOURS.ink}">`,
    `<title>${escapeXml(title)}</title>`,
    `<rect class="lot-ground" width="100%" height="100%" fill="${COLOURS.ground}"/>`,
    ...parts,
    '</svg>',
    '',
  ].join('\n');
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
  service: ' stroke-dasharray="8 3 2 3" stroke-width="2"',
};

function northArrow(turnRad: number, widthM: number): string {
  const x = (widthM - 0.9) * PIXELS_PER_M;
  const degrees = ((turnRad * 180) / Math.PI).toFixed(1);
  return `<g transform="translate(${x.toFixed(1)} 40) rotate(${degrees})"><path d="M0 22V-16M-6 -6L0 -18L6 -6" fill="none" stroke="${COLOURS.ink}" stroke-width="2"/><text x="0" y="-22" font-size="13" text-anchor="middle">N</text></g>`;
}

function scaleBar(heightM: number, units: UnitSystem): string {
  const lengthM = units === 'metric' ? 5 : 20 * 0.3048;
  const y = (heightM - 0.6) * PIXELS_PER_M;
  const x = MARGIN_M * PIXELS_PER_M;
  const end = x + lengthM * PIXELS_PER_M;
  return `<path d="M${x} ${y - 6}V${y}H${end.toFixed(1)}V${y - 6}" fill="none" stroke="${COLOURS.ink}" stroke-width="2"/><text x="${x + 6}" y="${y - 8}" font-size="13">${units === 'metric' ? '5 m' : '20 ft'}</text>`;
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

/** Laid radials for the drawing, the oldest darkest. */
export function drawnRadials(radials: readonly Radial[], units: UnitSystem): DrawnWire[] {
  const times = [...new Set(radials.map(({ since }) => since ?? ''))].sort();
  const routes = laidRoutes(radials);
  return radials.map(({ number, lengthM, since }, i) => ({
    points: routes[i] as readonly Point[],
    state: 'laid',
    age: times.length < 2 ? 1 : 1 - times.indexOf(since ?? '') / (times.length - 1),
    label: `radial ${number}, ${formatLength(lengthM, units)}${since === null ? '' : `, laid ${since.slice(0, 10)}`}`,
  }));
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
