import type { App } from '../app.ts';
import { h, replace } from '../dom.ts';
import type { ShownLayer } from '../model/shown.ts';
import { layerName } from '../model/sweep-words.ts';
import { Choice } from '../parts/choice.ts';
import { Switch } from '../parts/switch.ts';
import { lineKey } from '../pictures/key.ts';

const ALL = 'all';
const NONE = 'none';

/** Which sweeps are laid over each other, which pair is spoken of, and which band fills the picture. */
export class SweepChoices {
  readonly element: HTMLElement;
  readonly #app: App;
  readonly #after: Choice;
  readonly #before: Choice;
  readonly #band: Switch;
  readonly #keys: HTMLElement = h('div', { class: 'pair-keys' });
  readonly #also: HTMLElement = h('div', { class: 'also-list' });
  readonly #alsoCount: HTMLElement = h('summary', {});
  #alsoIds = '';

  constructor(app: App) {
    this.#app = app;
    this.#after = new Choice('This sweep', (visit) => app.go({ visit }));
    this.#before = new Choice('held against', (before) => app.go({ before }));
    this.#band = new Switch('Show', 'band', (band) => app.go({ band: band === ALL ? null : band }));
    const all = h('button', { type: 'button', onclick: () => app.go({ also: null }) }, 'Show all');
    const none = h('button', { type: 'button', onclick: () => app.go({ also: [] }) }, 'Show none');
    this.element = h(
      'div',
      { class: 'choices' },
      h('div', { class: 'choices-row' }, this.#after.element, this.#before.element, this.#band.element),
      this.#keys,
      h('details', { class: 'also' }, this.#alsoCount, h('div', { class: 'buttons' }, all, none), this.#also),
    );
  }

  update(shown: readonly ShownLayer[]): void {
    const { layers, bands, address, reader } = this.#app;
    const names = layers.map((layer) => ({ value: layer.id, label: layerName(layer, reader) })).toReversed();
    const after = shown.find(({ role }) => role === 'after')?.layer;
    const before = shown.find(({ role }) => role === 'before')?.layer;
    this.#after.set(names, after?.id ?? '');
    this.#before.set(
      [{ value: NONE, label: 'nothing' }, ...names.filter(({ value }) => value !== after?.id)],
      before?.id ?? NONE,
    );
    this.#band.set(
      [
        { value: ALL, label: 'all that was swept' },
        ...bands.map(({ band }) => ({ value: band, label: band })),
      ],
      bands.some(({ band }) => band === address.band) ? (address.band as string) : ALL,
    );
    replace(
      this.#keys,
      shown
        .filter(({ style }) => style.mark !== null)
        .toReversed()
        .map(({ layer, role, style }) =>
          h('span', { class: 'pair-key' }, lineKey(style), role === 'other' ? '' : `${role}: `, layer.label),
        ),
    );
    this.#setAlso(shown);
  }

  /** The list is built anew only when other sweeps are in it, so that a box that was ticked keeps the focus. */
  #setAlso(shown: readonly ShownLayer[]): void {
    const { layers, reader } = this.#app;
    const pair = shown.filter(({ role }) => role !== 'other').map(({ layer }) => layer);
    const others = layers.filter((layer) => !pair.includes(layer)).toReversed();
    const visible = new Set(shown.map(({ layer }) => layer.id));
    const count = others.filter(({ id }) => visible.has(id)).length;
    const leftOut = this.#app.data?.sweeps.leftOut ?? 0;
    this.#alsoCount.textContent =
      `Other sweeps behind the pair: ${count} of ${others.length}` +
      (leftOut === 0
        ? ''
        : `; ${reader.number(leftOut, 0)} more visits are in the logbook and not in this page`);
    const ids = others.map(({ id }) => id).join();
    if (ids !== this.#alsoIds) {
      this.#alsoIds = ids;
      replace(
        this.#also,
        others.map((layer) => {
          const box = h('input', { type: 'checkbox', value: layer.id });
          box.addEventListener('change', () => this.#app.go({ also: this.#ticked() }));
          return h('label', { class: 'also-item' }, box, h('span', {}, layerName(layer, reader)));
        }),
      );
    }
    for (const box of this.#also.querySelectorAll('input')) box.checked = visible.has(box.value);
  }

  #ticked(): string[] {
    return [...this.#also.querySelectorAll('input')].filter((box) => box.checked).map((box) => box.value);
  }
}
