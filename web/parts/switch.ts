import { h } from '../dom.ts';
import type { Option } from './choice.ts';

/** A few choices side by side, of which one holds; radio buttons, so that arrow keys move along them. */
export class Switch {
  readonly element: HTMLFieldSetElement;
  readonly #name: string;
  readonly #chosen: (value: string) => void;
  readonly #row: HTMLElement = h('div', { class: 'switch-row' });
  #options = '';

  constructor(legend: string, name: string, chosen: (value: string) => void) {
    this.#name = name;
    this.#chosen = chosen;
    this.element = h(
      'fieldset',
      { class: 'switch' },
      h('legend', { class: 'switch-legend' }, legend),
      this.#row,
    );
  }

  set(options: readonly Option[], value: string): void {
    const wanted = options.map((option) => `${option.value}\n${option.label}`).join('\n');
    if (wanted !== this.#options) {
      this.#options = wanted;
      this.#row.replaceChildren(...options.map((option) => this.#button(option)));
    }
    for (const input of this.#row.querySelectorAll('input')) input.checked = input.value === value;
  }

  #button({ value, label }: Option): HTMLElement {
    const input = h('input', { class: 'switch-input', type: 'radio', name: this.#name, value });
    input.addEventListener('change', () => this.#chosen(value));
    return h('label', { class: 'switch-option' }, input, h('span', { class: 'switch-face' }, label));
  }
}
