import { LineSplitter } from '../../src/instrument/codec/line-splitter.ts';
import type { LineTransport } from '../../src/instrument/line-transport.ts';

/** Lines over a serial port, one at a time. */
export class SerialLines {
  readonly #transport: LineTransport;
  readonly #splitter: LineSplitter = new LineSplitter();
  readonly #lines: Uint8Array[] = [];
  #wake: (() => void) | null = null;
  #open = true;

  private constructor(transport: LineTransport) {
    this.#transport = transport;
  }

  static async open(transport: LineTransport): Promise<SerialLines> {
    const lines = new SerialLines(transport);
    await transport.open({
      bytes: (chunk) => {
        lines.#lines.push(...lines.#splitter.push(chunk));
        lines.#wake?.();
      },
      gone: () => {
        lines.#open = false;
        lines.#wake?.();
      },
    });
    return lines;
  }

  send(text: string): Promise<void> {
    return this.#transport.write(text);
  }

  /** The next line, or null when none came for so long or the port is gone. */
  async next(waitMs: number): Promise<Uint8Array | null> {
    if (this.#lines.length === 0 && this.#open) {
      let timer: ReturnType<typeof setTimeout> | undefined;
      await new Promise<void>((resolve) => {
        this.#wake = resolve;
        timer = setTimeout(resolve, waitMs);
      });
      clearTimeout(timer);
      this.#wake = null;
    }
    return this.#lines.shift() ?? null;
  }

  async close(): Promise<void> {
    this.#open = false;
    await this.#transport.close();
  }
}
