import { h } from '../dom.ts';
import { nearestIndex } from '../model/at-frequency.ts';
import { AXIS_PX, RIGHT_PX, type StripRange } from './strips.ts';

/**
 * Strips with one stake through all of them, which the reader moves by touch, by mouse, or by the keys of the slider
 * under it. The stake stands at given stops only, so that what it tells was measured and not made up between.
 */
export class Staked {
  readonly element: HTMLElement;
  /** Holds the strips and the stake. */
  readonly layers: HTMLElement = h('div', { class: 'strata-layers' });
  readonly #stake: HTMLElement = h('div', { class: 'stake', 'aria-hidden': 'true' });
  readonly #slider: HTMLInputElement;
  /** Tells what stands at a stop and returns how its place is called. */
  readonly #moved: (index: number) => string;
  #stops: Float64Array = new Float64Array(0);
  #range: StripRange = { from: 0, to: 1 };

  constructor(label: string, moved: (index: number) => string) {
    this.#moved = moved;
    this.#slider = h('input', { type: 'range', class: 'stake-handle', min: 0, step: 1, 'aria-label': label });
    this.element = h('div', { class: 'strata' }, this.layers, this.#slider);
    this.#slider.addEventListener('input', () => this.#move(Number(this.#slider.value)));
    const follow = (event: PointerEvent): void => {
      if (event.pointerType === 'mouse' || event.buttons > 0) this.#follow(event.clientX);
    };
    this.layers.addEventListener('pointermove', follow);
    this.layers.addEventListener('pointerdown', follow);
    new ResizeObserver(() => this.#place(Number(this.#slider.value))).observe(this.layers);
  }

  /** Puts strips under the stake. */
  hold(strips: readonly HTMLElement[]): void {
    this.layers.replaceChildren(...strips, this.#stake);
  }

  /** @param stops - rising, within the range */
  setStops(stops: Float64Array, range: StripRange, index: number): void {
    this.#stops = stops;
    this.#range = range;
    this.#slider.max = String(Math.max(0, stops.length - 1));
    this.#move(index);
  }

  #follow(clientX: number): void {
    if (this.#stops.length < 2) return;
    const { left, width } = this.layers.getBoundingClientRect();
    const { from, to } = this.#range;
    const place = from + ((clientX - left - AXIS_PX) / (width - AXIS_PX - RIGHT_PX)) * (to - from);
    const index = nearestIndex(this.#stops, place);
    if (index !== Number(this.#slider.value)) this.#move(index);
  }

  #move(index: number): void {
    if (this.#stops[index] === undefined) return;
    this.#slider.value = String(index);
    this.#place(index);
    this.#slider.setAttribute('aria-valuetext', this.#moved(index));
  }

  #place(index: number): void {
    const place = this.#stops[index];
    if (place === undefined) return;
    const { from, to } = this.#range;
    const width = this.layers.clientWidth - AXIS_PX - RIGHT_PX;
    const x = AXIS_PX + ((place - from) / (to - from)) * width;
    this.#stake.style.transform = `translateX(${x.toFixed(1)}px)`;
  }
}
