import type { Settings } from './settings.ts';

const DARK = '(prefers-color-scheme: dark)';

/** Puts a theme in force; `auto` follows the system. Paper is always light. */
export class ThemeKeeper {
  readonly #dark: MediaQueryList = window.matchMedia(DARK);
  #wanted: Settings['theme'] = 'auto';

  /** @param changed - hears when the system's choice changed what is in force */
  constructor(changed: () => void) {
    this.#dark.addEventListener('change', () => {
      this.#apply();
      changed();
    });
    window.addEventListener('beforeprint', () => this.#set('light'));
    window.addEventListener('afterprint', () => this.#apply());
  }

  want(theme: Settings['theme']): void {
    this.#wanted = theme;
    this.#apply();
  }

  #apply(): void {
    this.#set(this.#wanted === 'auto' ? (this.#dark.matches ? 'dark' : 'light') : this.#wanted);
  }

  #set(theme: string): void {
    document.documentElement.dataset['theme'] = theme;
  }
}
