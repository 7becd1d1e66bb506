import type { App } from '../app.ts';
import { h } from '../dom.ts';
import type { Layer } from '../model/layers.ts';
import { afterLayer, beforeLayer } from '../model/shown.ts';
import { layerName } from '../model/sweep-words.ts';
import { Choice } from '../parts/choice.ts';

export interface TwoSweeps {
  readonly before: Layer;
  readonly after: Layer;
}

/** Two lists to choose any two sweeps from, kept in the address. */
export class PairChoice {
  readonly element: HTMLElement;
  readonly #app: App;
  readonly #before: Choice;
  readonly #after: Choice;

  constructor(app: App) {
    this.#app = app;
    this.#before = new Choice('Before', (before) => app.go({ before, change: 'pair' }));
    this.#after = new Choice('After', (visit) => app.go({ visit, change: 'pair' }));
    this.element = h('div', { class: 'choices choices-row' }, this.#before.element, this.#after.element);
  }

  /** Shows what can be chosen; returns what is, null where there are no two sweeps. */
  update(): TwoSweeps | null {
    const { layers, address, reader } = this.#app;
    const after = afterLayer(layers, address);
    const asked = address.before === 'none' ? { ...address, before: null } : address;
    const before = beforeLayer(layers, asked) ?? layers.find((layer) => layer !== after) ?? null;
    if (after === null || before === null) return null;
    const names = layers.map((layer) => ({ value: layer.id, label: layerName(layer, reader) })).toReversed();
    this.#before.set(
      names.filter(({ value }) => value !== after.id),
      before.id,
    );
    this.#after.set(
      names.filter(({ value }) => value !== before.id),
      after.id,
    );
    return { before, after };
  }
}
