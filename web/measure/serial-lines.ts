import { LineSplitter } from '../../src/instrument/codec/line-splitter.ts';
import type { WebSerialPort } from './web-serial.ts';

/** A byte-wise error ends only the stream; the port gives a fresh one, so reading goes on until it gives none. */
const READ_BYTES = 8192;

/** Lines over a serial port, one at a time. */
export class SerialLines {
  readonly #port: WebSerialPort;
  readonly #lines: Uint8Array[] = [];
  #wake: (() => void) | null = null;
  #reader: ReadableStreamDefaultReader<Uint8Array> | null = null;
  #open = true;
  readonly #reading: Promise<void>;

  private constructor(port: WebSerialPort) {
    this.#port = port;
    this.#reading = this.#read();
  }

  static async open(port: WebSerialPort, baudRate: number): Promise<SerialLines> {
    await port.open({ baudRate, bufferSize: READ_BYTES });
    return new SerialLines(port);
  }

  async send(text: string): Promise<void> {
    const writer = this.#port.writable?.getWriter();
    await writer?.write(new TextEncoder().encode(text));
    writer?.releaseLock();
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
    await this.#reader?.cancel().catch(() => {});
    await this.#reading;
    await this.#port.close().catch(() => {});
  }

  async #read(): Promise<void> {
    const splitter = new LineSplitter();
    while (this.#open && this.#port.readable !== null) {
      this.#reader = this.#port.readable.getReader();
      try {
        for (;;) {
          const { value, done } = await this.#reader.read();
          if (done) break;
          this.#lines.push(...splitter.push(value));
          this.#wake?.();
        }
      } catch {
        splitter.discardTail();
      } finally {
        this.#reader.releaseLock();
      }
    }
    this.#open = false;
    this.#wake?.();
  }
}
