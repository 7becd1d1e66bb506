import type { App } from '../app.ts';
import { h, replace } from '../dom.ts';
import type { ShownLayer } from '../model/shown.ts';
import { layerName } from '../model/sweep-words.ts';
import { Choice } from '../parts/choice.ts';
import { Switch } from '../parts/switch.ts';
import { lineKey } from '../pictures/key.ts';
import { AlsoList } from './also-list.ts';

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
  readonly #also: AlsoList;

  constructor(app: App) {
    this.#app = app;
    this.#after = new Choice('This sweep', (visit) => app.go({ visit }));
    this.#before = new Choice('compared with', (before) => app.go({ before }));
    this.#band = new Switch('Show', 'band', (band) => app.go({ band: band === ALL ? null : band }));
    this.#also = new AlsoList(app);
    this.element = h(
      'div',
      { class: 'choices' },
      h('div', { class: 'choices-row' }, this.#after.element, this.#before.element, this.#band.element),
      this.#keys,
      this.#also.element,
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
    this.#also.update(shown);
  }
}
