import type { PageChart } from '../../src/formats/page-data.ts';
import { h } from '../dom.ts';
import { nearestIndex } from '../model/at-frequency.ts';
import { FEATURES } from '../model/change-words.ts';
import type { LineStyle } from '../model/shown.ts';
import { thin } from '../model/thin.ts';
import type { Reader } from '../reader.ts';
import { InTurn } from './in-turn.ts';
import { Staked } from './staked.ts';
import { AXIS_PX, RIGHT_PX, Strip, type StripLine, type StripRange } from './strips.ts';

const STRIP_PX = 132;
/** With more values than these a mark on each is a smear. */
const MOST_MARKS = 150;

export const SEEN: LineStyle = { colour: '--after', widthPx: 1.5, dash: [], mark: 'disc' };
export const EXPECTED: LineStyle = { colour: '--grass', widthPx: 2, dash: [8, 5], mark: null };
export const SMOOTHED: LineStyle = { colour: '--before', widthPx: 2.5, dash: [], mark: null };
export const LIMIT: LineStyle = { colour: '--warn', widthPx: 1.5, dash: [3, 4], mark: null };

export interface TimeLineInput {
  readonly charts: readonly PageChart[];
  /** Times of notes, milliseconds. */
  readonly notesMs: readonly number[];
  readonly reader: Reader;
  /** A day for the labels along. */
  readonly day: (timeMs: number) => string;
}

/** The features of the visits over time, each with what was expected and how far it may stray. */
export class TimeLine {
  readonly #staked: Staked;
  readonly #tell: (visit: number, timeMs: number) => void;
  #strips: Strip[] = [];
  #input: TimeLineInput | null = null;
  readonly #turns: InTurn = new InTurn();

  /** @param tell - hears at which visit the stake stands */
  constructor(tell: (visit: number, timeMs: number) => void) {
    this.#tell = tell;
    this.#staked = new Staked('Visit at the stake', (index) => this.#moved(index));
  }

  get element(): HTMLElement {
    return this.#staked.element;
  }

  /** @param rest - what is to be drawn beside, when the strips stand */
  draw(input: TimeLineInput, rest: readonly (() => void)[]): void {
    this.destroy();
    this.#input = input;
    const first = input.charts[0];
    if (first === undefined) return;
    const times = Float64Array.from(first.timeMs);
    const range = widened(times);
    const hosts = input.charts.map(({ feature }) => {
      const { name, unit } = FEATURES[feature];
      const chart = h('div', { class: 'strip-chart' });
      const title = h('p', { class: 'strip-title' }, h('b', {}, name), unit === '' ? null : ` ${unit}`);
      return { section: h('div', { class: 'strip' }, title, chart), chart };
    });
    this.#staked.hold(hosts.map(({ section }) => section));
    this.#staked.setStops(times, range, times.length - 1);
    const columns = Math.max(50, this.element.clientWidth - AXIS_PX - RIGHT_PX);
    const tasks = input.charts.map((chart, i) => () => {
      const isLast = i === input.charts.length - 1;
      const host = (hosts[i] as { chart: HTMLElement }).chart;
      this.#strips.push(
        new Strip(host, KIND, linesOf(chart, columns), {
          range,
          heightPx: STRIP_PX,
          shaded: [],
          uprights: input.notesMs.filter((time) => time >= range.from && time <= range.to),
          number: (value, decimals) => input.reader.number(value, decimals),
          labels: isLast ? (splits) => splits.map(input.day) : null,
        }),
      );
    });
    this.#turns.start([...tasks, ...rest]);
  }

  destroy(): void {
    this.#turns.stop();
    for (const strip of this.#strips) strip.destroy();
    this.#strips = [];
  }

  #moved(index: number): string {
    const { charts, day } = this.#input as TimeLineInput;
    const timeMs = charts[0]?.timeMs[index] ?? 0;
    const visit = charts[0]?.visits[index] ?? 0;
    this.#tell(visit, timeMs);
    return `visit ${visit}, ${day(timeMs)}`;
  }
}

const KIND = {
  level: null,
  range: (least: number, most: number): [number, number] => {
    const room = 0.08 * (most - least) || Math.max(1e-6, Math.abs(most) * 0.02);
    return [least - room, most + room];
  },
};

function widened(times: Float64Array): StripRange {
  const [from, to] = [times[0] as number, times[times.length - 1] as number];
  const room = Math.max(0.02 * (to - from), 3_600_000);
  return { from: from - room, to: to + room };
}

/** No more of a chart than its pixels can show. */
function linesOf(chart: PageChart, columns: number): StripLine[] {
  const { perSi } = FEATURES[chart.feature];
  const line = (style: LineStyle, valueAt: (i: number) => number): StripLine => {
    const all = new Float64Array(chart.timeMs.length);
    for (let i = 0; i < all.length; i++) all[i] = valueAt(i) * perSi;
    const kept = thin(chart.timeMs, all, columns);
    return {
      along: Float64Array.from(kept, (i) => chart.timeMs[i] as number),
      values: Float64Array.from(kept, (i) => all[i] as number),
      style: kept.length > MOST_MARKS ? { ...style, mark: null } : style,
      markAll: true,
    };
  };
  const { values, expected, smoothed } = chart;
  const at = (column: readonly number[], i: number): number => column[i] as number;
  return [
    line(SEEN, (i) => at(values, i)),
    line(EXPECTED, (i) => at(expected, i)),
    ...(smoothed === null
      ? []
      : [
          line(LIMIT, (i) => at(expected, i) + at(smoothed.limit, i)),
          line(LIMIT, (i) => at(expected, i) - at(smoothed.limit, i)),
          line(SMOOTHED, (i) => at(expected, i) + at(smoothed.average, i)),
        ]),
  ];
}

/** What a chart holds at a visit; null where that visit does not show it. */
export function chartAt(chart: PageChart, visit: number): { value: number; expected: number } | null {
  const index = nearestIndex(chart.visits, visit);
  if (chart.visits[index] !== visit) return null;
  return { value: chart.values[index] as number, expected: chart.expected[index] as number };
}
