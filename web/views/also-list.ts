import type { App } from '../app.ts';
import { h, replace } from '../dom.ts';
import type { Layer } from '../model/layers.ts';
import type { ShownLayer } from '../model/shown.ts';
import { layerName } from '../model/sweep-words.ts';

/** The sweeps behind the pair, each with a box to tick; the boxes are made when the list is opened. */
export class AlsoList {
  readonly element: HTMLDetailsElement;
  readonly #app: App;
  readonly #boxes: HTMLElement = h('div', { class: 'also-list' });
  readonly #count: HTMLElement = h('summary', {});
  #others: readonly Layer[] = [];
  #visible: ReadonlySet<string> = new Set();
  #built = '';

  constructor(app: App) {
    this.#app = app;
    const all = h('button', { type: 'button', onclick: () => app.go({ also: null }) }, 'Show all');
    const none = h('button', { type: 'button', onclick: () => app.go({ also: [] }) }, 'Show none');
    const buttons = h('div', { class: 'buttons' }, all, none);
    this.element = h('details', { class: 'also' }, this.#count, buttons, this.#boxes);
    this.element.addEventListener('toggle', () => this.#show());
  }

  update(shown: readonly ShownLayer[]): void {
    const { layers, reader, data } = this.#app;
    const pair = shown.filter(({ role }) => role !== 'other').map(({ layer }) => layer);
    this.#others = layers.filter((layer) => !pair.includes(layer)).toReversed();
    this.#visible = new Set(shown.map(({ layer }) => layer.id));
    const count = this.#others.filter(({ id }) => this.#visible.has(id)).length;
    const leftOut = data?.sweeps.leftOut ?? 0;
    const beyond =
      leftOut === 0
        ? ''
        : `; ${reader.number(leftOut, 0)} more visits are in the logbook and not in this page`;
    this.#count.textContent = `Other sweeps behind the pair: ${count} of ${this.#others.length}${beyond}`;
    this.#show();
  }

  /** Boxes are made anew only when other sweeps are in the list, so that one that was ticked keeps the focus. */
  #show(): void {
    if (!this.element.open) return;
    const { reader } = this.#app;
    const names = this.#others.map((layer) => layerName(layer, reader));
    const wanted = names.join('\n');
    if (wanted !== this.#built) {
      this.#built = wanted;
      replace(
        this.#boxes,
        this.#others.map(({ id }, i) => {
          const box = h('input', { type: 'checkbox', value: id });
          box.addEventListener('change', () => this.#app.go({ also: this.#ticked() }));
          return h('label', { class: 'also-item' }, box, h('span', {}, names[i]));
        }),
      );
    }
    for (const box of this.#boxes.querySelectorAll('input')) box.checked = this.#visible.has(box.value);
  }

  #ticked(): string[] {
    return [...this.#boxes.querySelectorAll('input')].filter((box) => box.checked).map((box) => box.value);
  }
}
