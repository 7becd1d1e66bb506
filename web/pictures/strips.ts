import uPlot from 'uplot';
import type { Band } from '../../src/core/sweep/bands.ts';
import type { ColumnName, Curve } from '../model/columns.ts';
import type { LineStyle } from '../model/shown.ts';
import { drawMark } from './marks.ts';
import { themeColour } from './theme-colour.ts';

/** Room for the numbers on the left of every strip, so that all share one frequency axis. */
export const AXIS_PX = 56;
export const RIGHT_PX = 12;
const MARK_EVERY_PX = 90;

export interface StripLine {
  readonly frequencyHz: Float64Array;
  readonly values: Curve;
  readonly style: LineStyle;
}

export interface StripRange {
  readonly fromHz: number;
  readonly toHz: number;
}

/** What is measured upwards in a strip. */
export interface StripKind {
  readonly name: ColumnName | 'difference';
  /** The range shown, of what the lines hold within the frequencies shown. */
  range(least: number, most: number): [number, number];
  /** A level worth a line of its own. */
  readonly level: number | null;
}

/** One chart of lines over frequency, without a cursor of its own. */
export class Strip {
  readonly #chart: uPlot;
  readonly #watch: ResizeObserver;

  constructor(
    host: HTMLElement,
    kind: StripKind,
    lines: readonly StripLine[],
    range: StripRange,
    options: {
      readonly bands: readonly Band[];
      readonly heightPx: number;
      readonly withFrequencies: boolean;
      /** A number of so many decimals, for the axes. */
      readonly number: (value: number, decimals: number) => string;
    },
  ) {
    const ink = themeColour('--ink-soft');
    const grid = { stroke: themeColour('--grid'), width: 1 };
    const font = `14px ${themeColour('--sans')}`;
    this.#chart = new uPlot(
      {
        width: Math.max(200, host.clientWidth),
        height: options.heightPx,
        padding: [8, RIGHT_PX, options.withFrequencies ? 0 : 8, 0],
        legend: { show: false },
        cursor: { show: false },
        scales: {
          x: { time: false, range: () => [range.fromHz, range.toHz] },
          y: { range: (_, least, most) => kind.range(least ?? 0, most ?? 1) },
        },
        axes: [
          {
            stroke: ink,
            grid,
            ticks: { show: false },
            font,
            space: 72,
            size: options.withFrequencies ? 30 : 0,
            values: (_, splits, __, ___, step) =>
              splits.map((hz) =>
                options.withFrequencies ? options.number(hz / 1e6, decimalsOf(step / 1e6)) : '',
              ),
          },
          {
            stroke: ink,
            grid,
            ticks: { show: false },
            font,
            space: 34,
            size: AXIS_PX,
            values: (_, splits, __, ___, step) =>
              splits.map((value) => options.number(value, decimalsOf(step))),
          },
        ],
        series: [{}, ...lines.map(({ style }) => seriesOf(style))],
        hooks: {
          drawClear: [(chart) => shade(chart, options.bands)],
          draw: [(chart) => mark(chart, lines, kind.level)],
        },
      },
      joined(lines),
      host,
    );
    this.#watch = new ResizeObserver(() => {
      const width = host.clientWidth;
      if (width > 0 && width !== this.#chart.width) {
        this.#chart.setSize({ width, height: options.heightPx });
      }
    });
    this.#watch.observe(host);
  }

  /** Left edge of the frequencies and their width, in CSS pixels of the host. */
  get plot(): { readonly left: number; readonly width: number } {
    const { left, width } = this.#chart.bbox;
    return { left: left / devicePixelRatio, width: width / devicePixelRatio };
  }

  destroy(): void {
    this.#watch.disconnect();
    this.#chart.destroy();
  }
}

/** Decimals that tell two neighbouring numbers of an axis apart. */
function decimalsOf(step: number): number {
  return Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
}

function seriesOf({ colour, widthPx, dash }: LineStyle): uPlot.Series {
  return {
    stroke: themeColour(colour),
    width: widthPx,
    dash: [...dash],
    points: { show: false },
  };
}

/** Lines of one grid go as they are; others are brought onto all their frequencies, with nothing made up between. */
function joined(lines: readonly StripLine[]): uPlot.AlignedData {
  const first = lines[0];
  if (first === undefined) return [[]];
  if (lines.every(({ frequencyHz }) => sameGrid(frequencyHz, first.frequencyHz))) {
    return [first.frequencyHz, ...lines.map(({ values }) => values)] as uPlot.AlignedData;
  }
  return uPlot.join(lines.map(({ frequencyHz, values }) => [frequencyHz, values] as uPlot.AlignedData));
}

function sameGrid(a: Float64Array, b: Float64Array): boolean {
  if (a === b) return true;
  if (a.length !== b.length) return false;
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return false;
  return true;
}

/** The amateur bands behind the lines. */
function shade(chart: uPlot, bands: readonly Band[]): void {
  const { ctx, bbox } = chart;
  ctx.save();
  ctx.fillStyle = themeColour('--band');
  for (const { fromHz, toHz } of bands) {
    const left = Math.max(bbox.left, chart.valToPos(fromHz, 'x', true));
    const right = Math.min(bbox.left + bbox.width, chart.valToPos(toHz, 'x', true));
    if (right > left) ctx.fillRect(left, bbox.top, right - left, bbox.height);
  }
  ctx.restore();
}

/** A level line, and marks along the lines that have one, each line's beside the others'. */
function mark(chart: uPlot, lines: readonly StripLine[], level: number | null): void {
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
  lines.forEach(({ frequencyHz, values, style }, k) => {
    if (style.mark === null) return;
    const colour = themeColour(style.colour);
    const step = MARK_EVERY_PX * devicePixelRatio;
    let next = bbox.left + (step * (k + 1)) / (lines.length + 1);
    for (let i = 0; i < frequencyHz.length; i++) {
      const x = chart.valToPos(frequencyHz[i] as number, 'x', true);
      if (x < next) continue;
      next = x + step;
      const value = values[i];
      if (value === null || value === undefined) continue;
      drawMark(ctx, style.mark, x, chart.valToPos(value, 'y', true), 5 * devicePixelRatio, colour);
    }
  });
  ctx.restore();
}
