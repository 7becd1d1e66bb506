import { type Address, QUESTIONS, type QuestionName } from './address.ts';
import { h } from './dom.ts';

/** From this width on the questions stand open beside the answer. */
const WIDE = '(min-width: 68rem)';

/** The six questions: a list beside the answer where there is room, folded under the current one where there is none. */
export class QuestionMenu {
  readonly element: HTMLDetailsElement;
  readonly #links: readonly HTMLAnchorElement[];
  readonly #current: HTMLElement = h('span', {});
  readonly #wide: MediaQueryList = window.matchMedia(WIDE);

  constructor(chosen: (view: QuestionName) => void) {
    this.#links = QUESTIONS.map(({ name, question }, i) =>
      h(
        'a',
        { href: `#view=${name}`, 'data-view': name },
        h('span', { class: 'question-number', 'aria-hidden': 'true' }, i + 1),
        h('span', {}, question),
      ),
    );
    const items = this.#links.map((link) => h('li', {}, link));
    this.element = h(
      'details',
      { class: 'questions' },
      h('summary', {}, 'Six questions: ', this.#current),
      h('nav', { 'aria-label': 'Questions' }, h('ol', {}, items)),
    );
    for (const link of this.#links) {
      link.addEventListener('click', (event) => {
        // With a key held down the browser opens the question elsewhere, as for any link.
        if (event.ctrlKey || event.metaKey || event.shiftKey) return;
        event.preventDefault();
        chosen(link.dataset['view'] as QuestionName);
        this.#fold();
      });
    }
    this.#wide.addEventListener('change', () => this.#fold());
    this.#fold();
  }

  show(view: Address['view'], question: string): void {
    this.#current.textContent = question;
    for (const link of this.#links) {
      if (link.dataset['view'] === view) link.setAttribute('aria-current', 'page');
      else link.removeAttribute('aria-current');
    }
  }

  #fold(): void {
    this.element.open = this.#wide.matches;
  }
}
