import type { FileHandle } from 'node:fs/promises';
import { type Disk, REAL_DISK } from '../../src/logbook/disk.ts';

/** A disk on which one of the calls that change it fails, a write after half of its bytes. */
export class FaultyDisk {
  calls = 0;
  readonly #failAt: number;
  readonly #code: string;

  /** @param failAt - counted from 1; every call from there on fails, as on a full disk */
  constructor(failAt: number, code = 'ENOSPC') {
    this.#failAt = failAt;
    this.#code = code;
  }

  readonly disk: Disk = {
    mkdir: ((...args: Parameters<Disk['mkdir']>) =>
      this.#pass(() => REAL_DISK.mkdir(...args))) as Disk['mkdir'],
    rename: (...args) => this.#pass(() => REAL_DISK.rename(...args)),
    unlink: (...args) => REAL_DISK.unlink(...args),
    open: (async (...args: Parameters<Disk['open']>) => {
      // Opening for reading, as a folder is for its flush, takes no room.
      const handle =
        args[1] === 'r' ? await REAL_DISK.open(...args) : await this.#pass(() => REAL_DISK.open(...args));
      return this.#faulty(handle);
    }) as Disk['open'],
  };

  #faulty(handle: FileHandle): FileHandle {
    return new Proxy(handle, {
      get: (target, name) => {
        if (name === 'writeFile') {
          return (bytes: Uint8Array) =>
            this.#pass(
              () => target.writeFile(bytes),
              () => target.writeFile(bytes.subarray(0, bytes.length >> 1)),
            );
        }
        if (name === 'sync') return () => this.#pass(() => target.sync());
        const value = Reflect.get(target, name);
        return typeof value === 'function' ? value.bind(target) : value;
      },
    });
  }

  async #pass<T>(call: () => Promise<T>, before: () => Promise<unknown> = async () => {}): Promise<T> {
    if (++this.calls < this.#failAt) return call();
    await before();
    throw Object.assign(new Error(`${this.#code}: made up for a test`), { code: this.#code });
  }
}

/** A disk that never waits for its flushes: for tests that write thousands of times and cut no power. */
export const HASTY_DISK: Disk = {
  ...REAL_DISK,
  open: (async (...args: Parameters<Disk['open']>) => {
    const handle = await REAL_DISK.open(...args);
    handle.sync = async () => {};
    return handle;
  }) as Disk['open'],
};
