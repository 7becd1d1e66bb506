import type { Change } from '../app.ts';

/** One question's answer on the screen. */
export interface View {
  readonly element: HTMLElement;
  /** Draws what changed; without a word of what, everything. */
  update(change?: Change): void;
  destroy(): void;
}
