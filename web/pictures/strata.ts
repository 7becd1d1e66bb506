import type { Band } from '../../src/core/sweep/bands.ts';
import { h, replace } from '../dom.ts';
import { nearestIndex, type Spot, spotAt } from '../model/at-frequency.ts';
import { differenceOf } from '../model/columns.ts';
import type { LineStyle, ShownLayer } from '../model/shown.ts';
import type { Reader } from '../reader.ts';
import { lineKey } from './key.ts';
import { DIFFERENCE_KIND, STRIP_KINDS } from './strip-kinds.ts';
import { AXIS_PX, RIGHT_PX, Strip, type StripRange } from './strips.ts';

const STRIP_PX = 168;

const DIFFERENCE_LINES: readonly [LineStyle, LineStyle] = [
  { colour: '--after', widthPx: 2.5, dash: [], mark: 'disc' },
  { colour: '--line-2', widthPx: 2.5, dash: [6, 4], mark: 'ring' },
];

export interface StrataInput {
  readonly shown: readonly ShownLayer[];
  readonly range: StripRange;
  readonly bands: readonly Band[];
  readonly reader: Reader;
}

/** Where the stake stands, and what the pair says there. */
export interface Stake {
  readonly hz: number;
  readonly before: Spot | null;
  readonly after: Spot | null;
}

/**
 * The curves as layers over one frequency axis, and one stake through all of them that the reader moves by touch,
 * by mouse, or by the keys of the slider under it.
 */
export class Strata {
  readonly element: HTMLElement;
  readonly #layers: HTMLElement = h('div', { class: 'strata-layers' });
  readonly #stake: HTMLElement = h('div', { class: 'stake', 'aria-hidden': 'true' });
  readonly #slider: HTMLInputElement = h('input', {
    type: 'range',
    class: 'stake-handle',
    min: 0,
    step: 1,
    'aria-label': 'Frequency of the stake',
  });
  readonly #spots = new Map<string, HTMLElement>();
  readonly #tell: (stake: Stake) => void;
  #strips: Strip[] = [];
  #input: StrataInput | null = null;
  #pending = 0;

  constructor(tell: (stake: Stake) => void) {
    this.#tell = tell;
    this.#layers.append(this.#stake);
    this.element = h('div', { class: 'strata' }, this.#layers, this.#slider);
    this.#slider.addEventListener('input', () => this.#moveToIndex(Number(this.#slider.value)));
    const follow = (event: PointerEvent): void => {
      if (event.pointerType !== 'mouse' && event.buttons === 0) return;
      this.#moveToPixel(event.clientX - this.#layers.getBoundingClientRect().left);
    };
    this.#layers.addEventListener('pointermove', follow);
    this.#layers.addEventListener('pointerdown', follow);
    new ResizeObserver(() => this.#moveToIndex(Number(this.#slider.value))).observe(this.#layers);
  }

  /** Draws the first layer at once and the others after it, so that something is there to be read. */
  draw(input: StrataInput): void {
    this.destroy();
    this.#input = input;
    this.#spots.clear();
    const hosts = STRIP_KINDS.map((kind) => this.#host(kind.name, kind.title, kind.unit));
    const difference = this.#differenceHost();
    replace(
      this.#layers,
      hosts.map(({ section }) => section),
      difference?.section,
      this.#stake,
    );
    const last = difference === null ? hosts.length - 1 : hosts.length;
    const tasks = STRIP_KINDS.map((kind, i) => () => {
      const lines = input.shown.flatMap(({ layer, style }) => {
        const values = layer.columns[kind.name];
        return values === null ? [] : [{ frequencyHz: layer.columns.frequencyHz, values, style }];
      });
      const { chart } = hosts[i] as { chart: HTMLElement };
      this.#strips.push(new Strip(chart, kind, lines, input.range, this.#options(i === last)));
    });
    if (difference !== null) {
      tasks.push(() => {
        this.#strips.push(
          new Strip(difference.chart, DIFFERENCE_KIND, difference.lines, input.range, this.#options(true)),
        );
      });
    }
    this.#setSlider();
    tasks.shift()?.();
    const next = (): void => {
      tasks.shift()?.();
      if (tasks.length > 0) this.#pending = requestAnimationFrame(next);
    };
    this.#pending = requestAnimationFrame(next);
  }

  destroy(): void {
    cancelAnimationFrame(this.#pending);
    for (const strip of this.#strips) strip.destroy();
    this.#strips = [];
  }

  #options(withFrequencies: boolean): ConstructorParameters<typeof Strip>[4] {
    const { bands, reader } = this.#input as StrataInput;
    return {
      bands,
      withFrequencies,
      heightPx: withFrequencies ? STRIP_PX + 30 : STRIP_PX,
      number: (value, decimals) => reader.number(value, decimals),
    };
  }

  #host(name: string, title: string, unit: string): { section: HTMLElement; chart: HTMLElement } {
    const spot = h('span', { class: 'spot' });
    this.#spots.set(name, spot);
    const chart = h('div', { class: 'strip-chart' });
    const heading = h(
      'p',
      { class: 'strip-title' },
      h('b', {}, title),
      unit === '' ? null : ` ${unit}`,
      spot,
    );
    return { section: h('div', { class: `strip strip-${name}` }, heading, chart), chart };
  }

  #differenceHost() {
    const { shown } = this.#input as StrataInput;
    const before = shown.find(({ role }) => role === 'before')?.layer;
    const after = shown.find(({ role }) => role === 'after')?.layer;
    const difference =
      before === undefined || after === undefined ? null : differenceOf(before.sweep, after.sweep);
    if (difference === null) return null;
    const [r, x] = DIFFERENCE_LINES;
    const host = this.#host('difference', 'After minus before', 'Ω');
    host.section.firstElementChild?.append(
      h('span', { class: 'strip-key' }, lineKey(r), 'R ', lineKey(x), 'X'),
    );
    return {
      ...host,
      lines: [
        { frequencyHz: difference.frequencyHz, values: difference.resistanceOhm, style: r },
        { frequencyHz: difference.frequencyHz, values: difference.reactanceOhm, style: x },
      ],
    };
  }

  /** The frequencies at which the stake can stand: those of the later sweep that are in sight. */
  #stops(): Float64Array {
    const { shown, range } = this.#input as StrataInput;
    const frequencyHz = shown.at(-1)?.layer.columns.frequencyHz ?? new Float64Array(0);
    return frequencyHz.filter((hz) => hz >= range.fromHz && hz <= range.toHz);
  }

  #setSlider(): void {
    const stops = this.#stops();
    const { shown, range } = this.#input as StrataInput;
    this.#slider.max = String(Math.max(0, stops.length - 1));
    // The stake begins where the later sweep matches best: there the reader looks first.
    const swr = shown.at(-1)?.layer.columns;
    let best = (range.fromHz + range.toHz) / 2;
    let least = Number.POSITIVE_INFINITY;
    swr?.frequencyHz.forEach((hz, i) => {
      const value = swr.swr[i] ?? Number.POSITIVE_INFINITY;
      if (hz >= range.fromHz && hz <= range.toHz && value < least) [least, best] = [value, hz];
    });
    if (stops.length > 0) this.#moveToIndex(nearestIndex(stops, best));
  }

  #moveToPixel(x: number): void {
    const width = this.#layers.clientWidth - AXIS_PX - RIGHT_PX;
    const { range } = this.#input as StrataInput;
    const hz = range.fromHz + ((x - AXIS_PX) / width) * (range.toHz - range.fromHz);
    const stops = this.#stops();
    if (stops.length > 1) this.#moveToIndex(nearestIndex(stops, hz));
  }

  #moveToIndex(index: number): void {
    const input = this.#input;
    const hz = input === null ? undefined : this.#stops()[index];
    if (input === null || hz === undefined) return;
    const { range, shown, reader } = input;
    const width = this.#layers.clientWidth - AXIS_PX - RIGHT_PX;
    const x = AXIS_PX + ((hz - range.fromHz) / (range.toHz - range.fromHz)) * width;
    this.#stake.style.transform = `translateX(${x.toFixed(1)}px)`;
    const spotOf = (role: ShownLayer['role']): Spot | null => {
      const found = shown.find((one) => one.role === role);
      return found === undefined ? null : spotAt(found.layer.sweep, hz);
    };
    const stake = { hz, before: spotOf('before'), after: spotOf('after') };
    for (const { name, decimals } of STRIP_KINDS) {
      const text = [stake.before, stake.after]
        .filter((spot) => spot !== null)
        .map((spot) => reader.number(spot[name], decimals))
        .join(' → ');
      const place = this.#spots.get(name);
      if (place !== undefined) place.textContent = text;
    }
    this.#slider.value = String(index);
    this.#slider.setAttribute('aria-valuetext', reader.frequency(hz));
    this.#tell(stake);
  }
}
