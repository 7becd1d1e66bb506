import type { Band } from '../../src/core/sweep/bands.ts';
import { h } from '../dom.ts';
import { nearestIndex, type Spot, spotAt } from '../model/at-frequency.ts';
import { differenceOf } from '../model/columns.ts';
import type { LineStyle, ShownLayer } from '../model/shown.ts';
import type { Reader } from '../reader.ts';
import { InTurn } from './in-turn.ts';
import { lineKey } from './key.ts';
import { Staked } from './staked.ts';
import { DIFFERENCE_KIND, STRIP_KINDS } from './strip-kinds.ts';
import { decimalsOf, Strip, type StripKind, type StripLine, type StripRange } from './strips.ts';

const STRIP_PX = 168;

const DIFFERENCE_LINES: readonly [LineStyle, LineStyle] = [
  { colour: '--after', widthPx: 2.5, dash: [], mark: 'disc' },
  { colour: '--line-2', widthPx: 2.5, dash: [6, 4], mark: 'ring' },
];

export interface StrataInput {
  readonly shown: readonly ShownLayer[];
  /** Hertz. */
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

interface Planned {
  readonly kind: StripKind;
  readonly lines: () => readonly StripLine[];
  readonly section: HTMLElement;
  readonly chart: HTMLElement;
}

/** The curves of sweeps as layers over one frequency axis, as a soil has them. */
export class Strata {
  readonly #staked: Staked;
  readonly #spots = new Map<string, HTMLElement>();
  readonly #tell: (stake: Stake) => void;
  #strips: Strip[] = [];
  #input: StrataInput | null = null;
  #stops: Float64Array = new Float64Array(0);
  readonly #turns: InTurn = new InTurn();

  constructor(tell: (stake: Stake) => void) {
    this.#tell = tell;
    this.#staked = new Staked('Frequency to read at', (index) => this.#moved(index));
  }

  get element(): HTMLElement {
    return this.#staked.element;
  }

  /**
   * Draws the first layer at once and the others after it, so that something is there to be read.
   * @param tell - what is to be said of them, as soon as the first stands
   * @param rest - what is to be drawn beside them, when all stand
   */
  draw(input: StrataInput, tell: () => void, rest: readonly (() => void)[]): void {
    this.destroy();
    this.#input = input;
    this.#spots.clear();
    const difference = this.#planDifference(input);
    const plans = [...this.#planLayers(input), ...(difference === null ? [] : [difference])];
    this.#staked.hold(plans.map(({ section }) => section));
    const tasks = plans.map(({ kind, lines, chart }, i) => () => {
      const options = stripOptions(input, i === plans.length - 1);
      this.#strips.push(new Strip(chart, kind, lines(), options));
    });
    const speak = (): void => {
      tell();
      this.#setStops(input);
    };
    this.#turns.start([...tasks.slice(0, 1), speak, ...tasks.slice(1), ...rest]);
  }

  destroy(): void {
    this.#turns.stop();
    for (const strip of this.#strips) strip.destroy();
    this.#strips = [];
  }

  #planLayers({ shown }: StrataInput): Planned[] {
    return STRIP_KINDS.map((kind) => ({
      kind,
      lines: () =>
        shown.flatMap(({ layer, style }) => {
          const values = layer.columns[kind.name];
          return values === null ? [] : [{ along: layer.columns.frequencyHz, values, style }];
        }),
      ...this.#host(kind.name, kind.title, kind.unit),
    }));
  }

  #planDifference({ shown }: StrataInput): Planned | null {
    const [before, after] = (['before', 'after'] as const).map(
      (role) => shown.find((one) => one.role === role)?.layer.sweep,
    );
    const difference = before === undefined || after === undefined ? null : differenceOf(before, after);
    if (difference === null) return null;
    const [r, x] = DIFFERENCE_LINES;
    const host = this.#host('difference', 'After minus before', 'Ω');
    const keys = h('span', { class: 'strip-key' }, lineKey(r), 'R ', lineKey(x), 'X');
    host.section.firstElementChild?.append(keys);
    return {
      ...host,
      kind: DIFFERENCE_KIND,
      lines: () => [
        { along: difference.frequencyHz, values: difference.resistanceOhm, style: r },
        { along: difference.frequencyHz, values: difference.reactanceOhm, style: x },
      ],
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
    return { section: h('div', { class: 'strip' }, heading, chart), chart };
  }

  /** The stake stands at the points of the later sweep, first where it matches best: there one looks first. */
  #setStops({ shown, range }: StrataInput): void {
    const columns = shown.at(-1)?.layer.columns;
    const inSight = (hz: number): boolean => hz >= range.from && hz <= range.to;
    this.#stops = columns?.frequencyHz.filter(inSight) ?? new Float64Array(0);
    let best = (range.from + range.to) / 2;
    let least = Number.POSITIVE_INFINITY;
    columns?.frequencyHz.forEach((hz, i) => {
      const swr = columns.swr[i] ?? Number.POSITIVE_INFINITY;
      if (inSight(hz) && swr < least) [least, best] = [swr, hz];
    });
    const index = nearestIndex(this.#stops, best);
    this.#staked.setStops(this.#stops, range, index);
  }

  #moved(index: number): string {
    const { shown, reader } = this.#input as StrataInput;
    const hz = this.#stops[index] as number;
    const spotOf = (role: ShownLayer['role']): Spot | null => {
      const found = shown.find((one) => one.role === role);
      return found === undefined ? null : spotAt(found.layer.sweep, hz);
    };
    const stake = { hz, before: spotOf('before'), after: spotOf('after') };
    for (const { name, decimals } of STRIP_KINDS) {
      const place = this.#spots.get(name);
      if (place === undefined) continue;
      place.textContent = [stake.before, stake.after]
        .flatMap((spot) => (spot === null ? [] : [reader.number(spot[name], decimals)]))
        .join(' → ');
    }
    this.#tell(stake);
    return reader.frequency(hz);
  }
}

function stripOptions(
  { range, bands, reader }: StrataInput,
  isLast: boolean,
): ConstructorParameters<typeof Strip>[3] {
  const number = (value: number, decimals: number): string => reader.number(value, decimals);
  return {
    range,
    heightPx: STRIP_PX,
    shaded: bands.map(({ fromHz, toHz }) => ({ from: fromHz, to: toHz })),
    uprights: [],
    number,
    labels: isLast ? (splits, step) => splits.map((hz) => number(hz / 1e6, decimalsOf(step / 1e6))) : null,
  };
}
