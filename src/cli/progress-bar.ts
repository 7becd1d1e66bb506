import type { Io } from './io.ts';

/** A bar on the terminal, or nothing at all where there is none. */
export interface Progress {
  update(this: void, done: number, of: number): void;
  stop(this: void): void;
}

/** Starts a progress bar on standard error; silent when that is no terminal. */
export async function progressOn(io: Io, what: string): Promise<Progress> {
  if (!io.terminal) return { update: () => {}, stop: () => {} };
  const { SingleBar } = await import('cli-progress');
  const bar = new SingleBar({
    format: `{bar} {value} of {total} ${what}`,
    hideCursor: true,
    clearOnComplete: true,
  });
  let started = false;
  return {
    update: (done, of) => {
      if (!started) bar.start(of, 0);
      started = true;
      bar.setTotal(of);
      bar.update(done);
    },
    stop: () => {
      if (started) bar.stop();
    },
  };
}
