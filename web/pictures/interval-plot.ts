import { s } from '../dom.ts';
import { ticks } from './ticks.ts';

/** One interval to be held against zero. */
export interface Interval {
  readonly name: string;
  readonly value: number | null;
  /** Half its width; null where it is not known. */
  readonly half: number | null;
  /** What is printed at its end. */
  readonly text: string;
  readonly verdict: string;
}

/** Name and figure share a line where there is room for both. */
const NARROW_PX = 520;
const TOP_PX = 34;
const BOTTOM_PX = 44;
const MARKS: Readonly<Record<string, string>> = {
  improved: 'M0 -9L9 7H-9Z',
  worse: 'M0 9L9 -7H-9Z',
  'not shown': 'M-7 0a7 7 0 1 0 14 0a7 7 0 1 0 -14 0Z',
};

/**
 * Intervals one under the other on one scale, with zero as a heavy line: what does not touch it is a difference.
 * @param axis - what the scale is
 */
export function intervalPlot(
  intervals: readonly Interval[],
  widthPx: number,
  axis: {
    readonly label: string;
    readonly format: (value: number, decimals: number) => string;
    readonly limit?: number;
  },
): SVGSVGElement {
  const ends = intervals.map(({ value, half }) => (value === null ? 0 : Math.abs(value) + (half ?? 0)));
  // Where there is nothing to hold against zero, the scale still has round numbers.
  const reach = Math.max(...ends) || 1;
  const limit = Math.min(reach * 1.1, axis.limit ?? Number.POSITIVE_INFINITY);
  const [left, right] = [14, widthPx - 14];
  const x = (value: number): number =>
    left + ((Math.max(-limit, Math.min(limit, value)) + limit) / (2 * limit)) * (right - left);
  const isNarrow = widthPx < NARROW_PX;
  const rowPx = isNarrow ? 76 : 58;
  const height = TOP_PX + rowPx * intervals.length + BOTTOM_PX;
  const marks = ticks(-limit, limit, Math.max(2, Math.floor(widthPx / 110)));
  // On a phone the figures stand across the middle: the line is drawn beside the bars only.
  const zeroLine = isNarrow
    ? intervals.map((_, i) => `M${x(0)} ${TOP_PX + rowPx * (i + 1) - 30}v24`).join('')
    : `M${x(0)} ${TOP_PX - 8}V${height - BOTTOM_PX}`;
  return s(
    'svg',
    {
      width: widthPx,
      height,
      viewBox: `0 0 ${widthPx} ${height}`,
      class: 'intervals',
      'aria-hidden': 'true',
    },
    marks.values.map((value) => [
      s('path', { d: `M${x(value)} ${TOP_PX}V${height - BOTTOM_PX}`, class: 'grid-line' }),
      s('text', { x: x(value), y: height - 24, class: 'tick middle' }, axis.format(value, marks.decimals)),
    ]),
    s('path', { d: zeroLine, class: 'zero-line' }),
    s('text', { x: x(0), y: TOP_PX - 14, class: 'tick middle' }, 'no difference'),
    s('text', { x: widthPx / 2, y: height - 4, class: 'tick middle' }, axis.label),
    intervals.map((interval, i) =>
      row(interval, TOP_PX + rowPx * (i + 1) - 18, x, { limit, right, isNarrow }),
    ),
  );
}

function row(
  { name, value, half, text, verdict }: Interval,
  y: number,
  x: (value: number) => number,
  { limit, right, isNarrow }: { limit: number; right: number; isNarrow: boolean },
): SVGElement {
  const label = [
    s('text', { x: 14, y: y - (isNarrow ? 36 : 18), class: 'row-name' }, name),
    s(
      'text',
      { x: isNarrow ? 14 : right, y: y - 18, class: isNarrow ? 'row-figure' : 'row-figure end' },
      text,
    ),
  ];
  if (value === null) return s('g', {}, label);
  const [from, to] = [x(value - (half ?? 0)), x(value + (half ?? 0))];
  const beyond = Math.abs(value) > limit;
  return s(
    'g',
    { class: `interval verdict-${verdict.replaceAll(' ', '-')}` },
    label,
    half === null
      ? null
      : s('path', {
          d: `M${from} ${y}H${to}M${from} ${y - 8}V${y + 8}M${to} ${y - 8}V${y + 8}`,
          class: 'bar',
        }),
    s('path', {
      d: beyond
        ? value > 0
          ? 'M-8 -9L8 0L-8 9Z'
          : 'M8 -9L-8 0L8 9Z'
        : (MARKS[verdict] ?? (MARKS['not shown'] as string)),
      transform: `translate(${x(value)} ${y})`,
      class: 'dot',
    }),
  );
}
