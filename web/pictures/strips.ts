import uPlot from 'uplot';
import type { Curve } from '../model/columns.ts';
import type { LineStyle } from '../model/shown.ts';
import { drawMark } from './marks.ts';
import { straightPaths } from './straight-paths.ts';
import { themeColour } from './theme-colour.ts';

/** Room for the numbers on the left of every strip, so that all strips of a picture share one axis along. */
export const AXIS_PX = 56;
export const RIGHT_PX = 12;
const LABELS_PX = 30;
const MARK_EVERY_PX = 90;

/** One line of a strip: values over rising places along. */
export interface StripLine {
  readonly along: Float64Array;
  readonly values: Curve;
  readonly style: LineStyle;
  /** Every value gets its mark, not one now and then. */
  readonly markAll?: boolean;
}

export interface StripRange {
  readonly from: number;
  readonly to: number;
}

/** What is measured upwards in a strip. */
export interface StripKind {
  /** The range shown, of what the lines hold within the part that is shown. */
  range(least: number, most: number): [number, number];
  /** A level worth a line of its own. */
  readonly level: number | null;
}

export interface StripOptions {
  readonly range: StripRange;
  readonly heightPx: number;
  /** Shaded parts. */
  readonly shaded: readonly StripRange[];
  /** Places along with an upright line. */
  readonly uprights: readonly number[];
  /** Labels along the strip; null for none, where another strip below has them. */
  readonly labels: ((splits: readonly number[], step: number) => string[]) | null;
  /** A number of so many decimals, for the labels on the left. */
  readonly number: (value: number, decimals: number) => string;
}

/** One chart of lines, without a cursor of its own: a stake goes through all strips of a picture. */
export class Strip {
  readonly #chart: uPlot;
  readonly #watch: ResizeObserver;

  constructor(host: HTMLElement, kind: StripKind, lines: readonly StripLine[], options: StripOptions) {
    const { range, labels, number } = options;
    const height = options.heightPx + (labels === null ? 0 : LABELS_PX);
    const axis: uPlot.Axis = {
      stroke: themeColour('--ink-soft'),
      grid: { stroke: themeColour('--grid'), width: 1 },
      ticks: { show: false },
      font: `14px ${themeColour('--sans')}`,
    };
    this.#chart = new uPlot(
      {
        width: Math.max(200, host.clientWidth),
        height,
        padding: [8, RIGHT_PX, labels === null ? 8 : 0, 0],
        legend: { show: false },
        cursor: { show: false },
        scales: {
          x: { time: false, range: () => [range.from, range.to] },
          // A range that is given spares the chart a search through all lines at each drawing.
          y: { range: kind.range(...extentOf(lines, range)) },
        },
        axes: [
          {
            ...axis,
            space: 84,
            size: labels === null ? 0 : LABELS_PX,
            values: (_, splits, __, ___, step) => labels?.(splits, step) ?? splits.map(() => ''),
          },
          {
            ...axis,
            space: 34,
            size: AXIS_PX,
            values: (_, splits, __, ___, step) => splits.map((value) => number(value, decimalsOf(step))),
          },
        ],
        series: [{}, ...seriesOf(lines)],
        hooks: {
          drawClear: [(chart) => drawBehind(chart, options)],
          draw: [(chart) => drawBefore(chart, lines, kind.level)],
        },
      },
      dataOf(lines),
      host,
    );
    this.#watch = new ResizeObserver(() => {
      const width = host.clientWidth;
      if (width > 0 && width !== this.#chart.width) this.#chart.setSize({ width, height });
    });
    this.#watch.observe(host);
  }

  destroy(): void {
    this.#watch.disconnect();
    this.#chart.destroy();
  }
}

/** Least and largest of what is in sight. */
function extentOf(lines: readonly StripLine[], { from, to }: StripRange): [number, number] {
  let least = Number.POSITIVE_INFINITY;
  let most = Number.NEGATIVE_INFINITY;
  for (const { along, values } of lines) {
    for (let i = 0; i < along.length; i++) {
      const place = along[i] as number;
      const value = values[i];
      if (place < from || place > to || value === null || value === undefined) continue;
      if (value < least) least = value;
      if (value > most) most = value;
    }
  }
  return least <= most ? [least, most] : [0, 1];
}

/** Decimals that tell two neighbouring numbers of an axis apart. */
export function decimalsOf(step: number): number {
  let decimals = Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
  while (decimals < 9 && Math.abs(Number(step.toFixed(decimals)) - step) > 1e-9 * step) decimals++;
  return decimals;
}

function seriesOf(lines: readonly StripLine[]): uPlot.Series[] {
  const whole = lines.every(({ values }) => values instanceof Float64Array) && shareGrid(lines);
  const paths = whole && lines[0] !== undefined ? straightPaths(lines[0].along) : undefined;
  // A hundred lines have a handful of colours, and each question costs a look through the styles.
  const colours = new Map(lines.map(({ style: { colour } }) => [colour, '']));
  for (const name of colours.keys()) colours.set(name, themeColour(name));
  return lines.map(({ style: { colour, widthPx, dash } }) => ({
    stroke: colours.get(colour) as string,
    width: widthPx,
    dash: [...dash],
    points: { show: false },
    ...(paths === undefined ? {} : { paths }),
  }));
}

/** Lines of one grid go as they are; others are brought onto all their places, with nothing made up between. */
function dataOf(lines: readonly StripLine[]): uPlot.AlignedData {
  const first = lines[0];
  if (first === undefined) return [[]];
  if (shareGrid(lines)) {
    return [first.along, ...lines.map(({ values }) => values)] as uPlot.AlignedData;
  }
  return uPlot.join(lines.map(({ along, values }) => [along, values] as uPlot.AlignedData));
}

function shareGrid(lines: readonly StripLine[]): boolean {
  const first = lines[0]?.along ?? new Float64Array(0);
  return lines.every(({ along }) => sameColumn(along, first));
}

function sameColumn(a: Float64Array, b: Float64Array): boolean {
  if (a === b) return true;
  if (a.length !== b.length) return false;
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return false;
  return true;
}

function drawBehind({ ctx, bbox, valToPos }: uPlot, { shaded, uprights }: StripOptions): void {
  const x = (place: number): number =>
    Math.max(bbox.left, Math.min(bbox.left + bbox.width, valToPos(place, 'x', true)));
  ctx.save();
  ctx.fillStyle = themeColour('--band');
  for (const { from, to } of shaded) ctx.fillRect(x(from), bbox.top, x(to) - x(from), bbox.height);
  ctx.strokeStyle = themeColour('--soil');
  ctx.lineWidth = devicePixelRatio;
  ctx.setLineDash([2 * devicePixelRatio, 3 * devicePixelRatio]);
  ctx.beginPath();
  for (const place of uprights) {
    ctx.moveTo(x(place), bbox.top);
    ctx.lineTo(x(place), bbox.top + bbox.height);
  }
  ctx.stroke();
  ctx.restore();
}

/** A level line, and marks along the lines that have one, each line's beside the others'. */
function drawBefore(chart: uPlot, lines: readonly StripLine[], level: number | null): void {
  const { ctx, bbox } = chart;
  ctx.save();
  ctx.beginPath();
  ctx.rect(bbox.left, bbox.top, bbox.width, bbox.height);
  ctx.clip();
  if (level !== null) {
    const y = Math.round(chart.valToPos(level, 'y', true)) + 0.5;
    ctx.strokeStyle = themeColour('--level');
    ctx.lineWidth = devicePixelRatio;
    ctx.setLineDash([4 * devicePixelRatio, 4 * devicePixelRatio]);
    ctx.beginPath();
    ctx.moveTo(bbox.left, y);
    ctx.lineTo(bbox.left + bbox.width, y);
    ctx.stroke();
    ctx.setLineDash([]);
  }
  lines.forEach((line, k) => {
    markLine(chart, line, line.markAll === true ? 0 : (k + 1) / (lines.length + 1));
  });
  ctx.restore();
}

/** @param offset - of the first mark, as a part of the distance between two */
function markLine(chart: uPlot, { along, values, style, markAll }: StripLine, offset: number): void {
  if (style.mark === null) return;
  const colour = themeColour(style.colour);
  const step = (markAll === true ? 0 : MARK_EVERY_PX) * devicePixelRatio;
  let next = chart.bbox.left + step * offset - 1;
  for (let i = 0; i < along.length; i++) {
    const x = chart.valToPos(along[i] as number, 'x', true);
    const value = values[i];
    if (x < next || value === null || value === undefined) continue;
    next = x + step;
    drawMark(chart.ctx, style.mark, x, chart.valToPos(value, 'y', true), 5 * devicePixelRatio, colour);
  }
}
