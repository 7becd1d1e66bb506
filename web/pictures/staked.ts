import { h } from '../dom.ts';
import { nearestIndex } from '../model/at-frequency.ts';
import { AXIS_PX, RIGHT_PX, type StripRange } from './strips.ts';

/** A page of stops, for the keys that jump. */
const JUMPS = 10;

/**
 * Strips with one stake through all of them, which the reader moves by touch, by mouse, or by the keys of the slider
 * under it. The stake stands at given stops only, so that what it tells was measured and not made up between.
 */
export class Staked {
  readonly element: HTMLElement;
  readonly #layers: HTMLElement = h('div', { class: 'strata-layers' });
  readonly #stake: HTMLElement = h('div', { class: 'stake', 'aria-hidden': 'true' });
  readonly #slider: HTMLInputElement;
  /** Tells what stands at a stop and returns how its place is called. */
  readonly #moved: (index: number) => string;
  #stops: Float64Array = new Float64Array(0);
  #range: StripRange = { from: 0, to: 1 };
  #index = 0;
  /** Where the strips lie, measured when that may have changed: asking at every move would lay the page out each time. */
  #leftPx = 0;
  #widthPx = 0;

  constructor(label: string, moved: (index: number) => string) {
    this.#moved = moved;
    this.#slider = h('input', { type: 'range', class: 'stake-handle', step: 'any', 'aria-label': label });
    this.element = h('div', { class: 'strata' }, this.#layers, this.#slider);
    this.#slider.addEventListener('input', () => this.#moveTo(Number(this.#slider.value)));
    this.#slider.addEventListener('keydown', (event) => this.#onKey(event));
    const follow = (event: PointerEvent): void => {
      if (event.pointerType === 'mouse' || event.buttons > 0) this.#follow(event.clientX);
    };
    this.#layers.addEventListener('pointerenter', () => this.#measure());
    this.#layers.addEventListener('pointermove', follow);
    this.#layers.addEventListener('pointerdown', follow);
    new ResizeObserver(() => {
      this.#measure();
      this.#place();
    }).observe(this.#layers);
  }

  /** Puts strips under the stake. */
  hold(strips: readonly HTMLElement[]): void {
    this.#layers.replaceChildren(...strips, this.#stake);
  }

  /** @param stops - rising, within the range */
  setStops(stops: Float64Array, range: StripRange, index: number): void {
    this.#stops = stops;
    this.#range = range;
    this.#slider.min = String(range.from);
    this.#slider.max = String(range.to);
    this.#move(index);
  }

  #follow(clientX: number): void {
    const { from, to } = this.#range;
    this.#moveTo(from + ((clientX - this.#leftPx - AXIS_PX) / this.#widthPx) * (to - from));
  }

  #measure(): void {
    const { left, width } = this.#layers.getBoundingClientRect();
    this.#leftPx = left;
    this.#widthPx = Math.max(1, width - AXIS_PX - RIGHT_PX);
  }

  #moveTo(place: number): void {
    if (this.#stops.length < 2) return;
    const index = nearestIndex(this.#stops, place);
    if (index === this.#index) this.#slider.value = String(this.#stops[index]);
    else this.#move(index);
  }

  /** Stops lie unevenly, so the keys go from stop to stop and not along the slider. */
  #onKey(event: KeyboardEvent): void {
    const last = this.#stops.length - 1;
    const jump = Math.max(1, Math.round(last / JUMPS));
    const target = {
      ArrowLeft: this.#index - 1,
      ArrowDown: this.#index - 1,
      ArrowRight: this.#index + 1,
      ArrowUp: this.#index + 1,
      PageDown: this.#index - jump,
      PageUp: this.#index + jump,
      Home: 0,
      End: last,
    }[event.key];
    if (target === undefined) return;
    event.preventDefault();
    this.#move(Math.max(0, Math.min(last, target)));
  }

  #move(index: number): void {
    if (this.#stops[index] === undefined) return;
    this.#index = index;
    this.#place();
    this.#slider.setAttribute('aria-valuetext', this.#moved(index));
  }

  #place(): void {
    const place = this.#stops[this.#index];
    if (place === undefined) return;
    const { from, to } = this.#range;
    const x = AXIS_PX + ((place - from) / (to - from)) * this.#widthPx;
    this.#slider.value = String(place);
    this.#stake.style.transform = `translateX(${x.toFixed(1)}px)`;
  }
}
