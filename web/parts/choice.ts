import { h } from '../dom.ts';

export interface Option {
  readonly value: string;
  readonly label: string;
}

/** A labelled list to choose one from; the system's own, which everybody's fingers and screen reader know. */
export class Choice {
  readonly element: HTMLElement;
  readonly #select: HTMLSelectElement;
  #options = '';

  constructor(label: string, chosen: (value: string) => void) {
    this.#select = h('select', { class: 'choice-list' });
    this.#select.addEventListener('change', () => chosen(this.#select.value));
    this.element = h('label', { class: 'choice' }, h('span', { class: 'choice-name' }, label), this.#select);
  }

  /** Sets what can be chosen and what is; the element stays, and with it the focus. */
  set(options: readonly Option[], value: string): void {
    const wanted = options.map((option) => `${option.value}\n${option.label}`).join('\n');
    if (wanted !== this.#options) {
      this.#options = wanted;
      this.#select.replaceChildren(
        ...options.map((option) => h('option', { value: option.value }, option.label)),
      );
    }
    this.#select.value = value;
  }
}
