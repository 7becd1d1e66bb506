import { h } from '../dom.ts';

const QUIET_MS = 400;

/** Words that a screen reader says once they have rested for a moment, so that a moving stake does not chatter. */
export class LiveWords {
  readonly element: HTMLElement = h('p', { class: 'only-heard', role: 'status', 'aria-live': 'polite' });
  #timer: ReturnType<typeof setTimeout> | undefined;

  say(words: string): void {
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => {
      this.element.textContent = words;
    }, QUIET_MS);
  }
}
