import { s } from '../dom.ts';
import type { LineStyle } from '../model/shown.ts';
import type { Reader } from '../reader.ts';
import { isOpenMark, markPath } from './marks.ts';
import { ticks } from './ticks.ts';

/** A measured value over a number of radials; `half` is half its interval, null where it is not known. */
export interface CountPoint {
  readonly radials: number;
  readonly value: number;
  readonly half: number | null;
}

export interface CountSeries {
  readonly points: readonly CountPoint[];
  readonly style: LineStyle;
}

export interface CountChart {
  /** What goes up, with its unit. */
  readonly title: string;
  readonly series: readonly CountSeries[];
  readonly curve: readonly { readonly radials: number; readonly value: number }[];
  /** How far the radials go along. */
  readonly most: number;
  readonly heightPx?: number;
}

const [LEFT, RIGHT, TOP, BOTTOM] = [62, 16, 30, 48];

/** Values against the number of radials, each with its interval, and a fitted curve behind them. */
export function countChart(
  { title, series, curve, most, heightPx = 300 }: CountChart,
  widthPx: number,
  reader: Reader,
): SVGSVGElement {
  const all = series.flatMap(({ points }) => points);
  const inSight = curve.filter(({ radials }) => radials <= most);
  const ends = [
    ...all.flatMap(({ value, half }) => [value - (half ?? 0), value + (half ?? 0)]),
    ...inSight.map(({ value }) => value),
  ];
  const [least, largest] = ends.length === 0 ? [0, 1] : [Math.min(...ends), Math.max(...ends)];
  const room = 0.06 * (largest - least) || 1;
  const [low, high] = [least - room, largest + room];
  const x = (radials: number): number => LEFT + (radials / most) * (widthPx - LEFT - RIGHT);
  const y = (value: number): number => TOP + ((high - value) / (high - low)) * (heightPx - TOP - BOTTOM);
  const up = ticks(low, high, Math.round(heightPx / 50));
  const along = ticks(0, most, Math.max(3, Math.floor((widthPx - LEFT) / 70)));
  const path = inSight.map(({ radials, value }) => `${x(radials).toFixed(1)} ${y(value).toFixed(1)}`);
  return s(
    'svg',
    { width: widthPx, height: heightPx, viewBox: `0 0 ${widthPx} ${heightPx}`, 'aria-hidden': 'true' },
    s('text', { x: 8, y: 18, class: 'row-name' }, title),
    up.values.map((value) => [
      s('path', { d: `M${LEFT} ${y(value)}H${widthPx - RIGHT}`, class: 'grid-line' }),
      s('text', { x: LEFT - 8, y: y(value) + 5, class: 'tick end' }, reader.number(value, up.decimals)),
    ]),
    along.values.map((count) =>
      s('text', { x: x(count), y: heightPx - 26, class: 'tick middle' }, reader.number(count, 0)),
    ),
    s('text', { x: (LEFT + widthPx - RIGHT) / 2, y: heightPx - 6, class: 'tick middle' }, 'radials'),
    path.length < 2 ? null : s('path', { d: `M${path.join('L')}`, class: 'fitted' }),
    series.map(({ points, style }) => points.map((point) => pointMark(point, style, x, y))),
  );
}

function pointMark(
  { radials, value, half }: CountPoint,
  { colour, mark }: LineStyle,
  x: (radials: number) => number,
  y: (value: number) => number,
): SVGElement {
  const paint = `var(${colour})`;
  const kind = mark ?? 'disc';
  const [at, top, bottom] = [x(radials), y(value + (half ?? 0)), y(value - (half ?? 0))];
  return s(
    'g',
    {},
    half === null || half === 0
      ? null
      : s('path', {
          d: `M${at} ${top}V${bottom}M${at - 7} ${top}H${at + 7}M${at - 7} ${bottom}H${at + 7}`,
          stroke: paint,
          'stroke-width': 2.5,
        }),
    s('path', {
      d: markPath(kind),
      transform: `translate(${at} ${y(value)}) scale(7)`,
      fill: isOpenMark(kind) ? 'none' : paint,
      stroke: paint,
      'stroke-width': isOpenMark(kind) ? 0.4 : 0,
    }),
  );
}
