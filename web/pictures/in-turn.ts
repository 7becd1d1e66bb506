/** Runs tasks one after each frame, the first at once, so that the reader sees something while the rest is drawn. */
export class InTurn {
  #tasks: (() => void)[] = [];
  #frame = 0;
  #rest: ReturnType<typeof setTimeout> | undefined;

  /** Tasks that have not run yet are forgotten. */
  start(tasks: readonly (() => void)[]): void {
    this.stop();
    this.#tasks = [...tasks];
    this.#next();
  }

  stop(): void {
    cancelAnimationFrame(this.#frame);
    clearTimeout(this.#rest);
    this.#tasks = [];
  }

  #next(): void {
    this.#tasks.shift()?.();
    if (this.#tasks.length === 0) return;
    // After the frame, not before it: what was drawn is shown first.
    this.#frame = requestAnimationFrame(() => {
      this.#rest = setTimeout(() => this.#next());
    });
  }
}
