import type { GappyColumn, PageChanges, PageChart } from '../../src/formats/page-data.ts';
import { h } from '../dom.ts';
import { chartFigure, FEATURES } from '../model/change-words.ts';
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
  readonly changes: PageChanges;
  /** Times of notes, milliseconds. */
  readonly notesMs: readonly number[];
  readonly reader: Reader;
  /** A day for the labels along. */
  readonly day: (timeMs: number) => string;
}

/** The features of the visits over time, each with what was expected and how far it may stray. */
export class TimeLine {
  readonly #staked: Staked;
  readonly #tell: (index: number) => void;
  #strips: Strip[] = [];
  #input: TimeLineInput | null = null;
  readonly #turns: InTurn = new InTurn();

  /** @param tell - hears at which of the visits the stake stands */
  constructor(tell: (index: number) => void) {
    this.#tell = tell;
    this.#staked = new Staked('Visit to read', (index) => this.#moved(index));
  }

  get element(): HTMLElement {
    return this.#staked.element;
  }

  /** @param rest - what is to be drawn beside, when the strips stand */
  draw(input: TimeLineInput, rest: readonly (() => void)[]): void {
    this.destroy();
    this.#input = input;
    const { charts, timeMs } = input.changes;
    if (timeMs.length === 0) return;
    const times = new Float64Array(timeMs);
    const range = widened(times);
    const hosts = charts.map((chart) => {
      const { name, unit } = chartFigure(chart, charts);
      const strip = h('div', { class: 'strip-chart' });
      const title = h('p', { class: 'strip-title' }, h('b', {}, name), unit === '' ? null : ` ${unit}`);
      return { section: h('div', { class: 'strip' }, title, strip), strip };
    });
    this.#staked.hold(hosts.map(({ section }) => section));
    this.#staked.setStops(times, range, times.length - 1);
    const columns = Math.max(50, this.element.clientWidth - AXIS_PX - RIGHT_PX);
    const tasks = charts.map((chart, i) => () => {
      const isLast = i === charts.length - 1;
      const host = (hosts[i] as { strip: HTMLElement }).strip;
      this.#strips.push(
        new Strip(host, KIND, linesOf(chart, times, columns), {
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
    const { changes, day } = this.#input as TimeLineInput;
    const timeMs = changes.timeMs[index] ?? 0;
    const visit = changes.visits[index] ?? 0;
    this.#tell(index);
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
function linesOf(chart: PageChart, times: Float64Array, columns: number): StripLine[] {
  const { perSi } = FEATURES[chart.feature];
  const { values, expected, smoothed } = chart;
  const line = (
    style: LineStyle,
    column: GappyColumn,
    added: GappyColumn | null = null,
    sign = 1,
  ): StripLine => {
    const along: number[] = [];
    const all: number[] = [];
    for (let i = 0; i < times.length; i++) {
      const value = column[i] ?? null;
      const more = added === null ? 0 : (added[i] ?? null);
      if (value === null || more === null) continue;
      along.push(times[i] as number);
      all.push((value + sign * more) * perSi);
    }
    const kept = thin(along, all, columns);
    return {
      along: Float64Array.from(kept, (i) => along[i] as number),
      values: Float64Array.from(kept, (i) => all[i] as number),
      style: kept.length > MOST_MARKS ? { ...style, mark: null } : style,
      markAll: true,
    };
  };
  return [
    line(SEEN, values),
    line(EXPECTED, expected),
    ...(smoothed === null
      ? []
      : [
          line(LIMIT, expected, smoothed.limit),
          line(LIMIT, expected, smoothed.limit, -1),
          line(SMOOTHED, expected, smoothed.average),
        ]),
  ].filter(({ along }) => along.length > 0);
}
