import { access } from 'node:fs/promises';
import type { SerialPort } from 'serialport';
import { UserError } from '../../core/user-error.ts';
import type { LineTransport, TransportListener } from '../line-transport.ts';
import { openPortError, portError, portGone } from './port-errors.ts';

/** Settings of the wire. */
export interface SerialSettings {
  readonly baud: number;
  readonly dataBits: 7 | 8;
  readonly stopBits: 1 | 2;
  readonly parity: 'none' | 'even' | 'odd';
  readonly flowControl: 'none' | 'rts-cts' | 'xon-xoff';
}

/** What the line protocol uses, and most text-line instruments. */
export const DEFAULT_SERIAL_SETTINGS: SerialSettings = {
  baud: 115_200,
  dataBits: 8,
  stopBits: 1,
  parity: 'none',
  flowControl: 'none',
};

const OPEN_MS = 5000;
const WRITE_MS = 5000;
const CLOSE_MS = 2000;
const PRESENCE_MS = 250;

/** A serial port, or anything that the operating system shows as one. */
export function serialTransport(path: string, settings: SerialSettings): LineTransport {
  let connection: Connection | null = null;
  return {
    name: path,
    async open(listener) {
      // The native binding takes longer to load than all of the rest: only who measures pays for it.
      const { SerialPort } = await import('serialport');
      const opened = new Connection(
        new SerialPort({
          path,
          autoOpen: false,
          baudRate: settings.baud,
          dataBits: settings.dataBits,
          stopBits: settings.stopBits,
          parity: settings.parity,
          rtscts: settings.flowControl === 'rts-cts',
          xon: settings.flowControl === 'xon-xoff',
          xoff: settings.flowControl === 'xon-xoff',
          // Dropping DTR at each close would reset most boards at the next opening.
          hupcl: false,
        }),
        path,
        listener,
      );
      connection = opened;
      await opened.open();
    },
    async write(text) {
      if (connection === null) throw portGone(path);
      await connection.write(text);
    },
    async close() {
      await connection?.close();
      connection = null;
    },
  };
}

/** One opening of a port. The object is never used twice, because what is left in its pipes would come out later. */
class Connection {
  readonly #port: SerialPort;
  readonly #name: string;
  readonly #listener: TransportListener;
  #closing = false;
  #lost: UserError | null = null;
  #presence: NodeJS.Timeout | undefined;

  constructor(port: SerialPort, name: string, listener: TransportListener) {
    this.#port = port;
    this.#name = name;
    this.#listener = listener;
    // Without listeners an error ends the process, so these come before the opening.
    port.on('error', (error) => this.#lose(openPortError(name, error)));
    port.on('close', (error: Error | null) => this.#lose(portGone(name, error ?? undefined)));
    port.on('data', (chunk: Buffer) => {
      if (!this.#closing) listener.bytes(chunk);
    });
  }

  async open(): Promise<void> {
    const opening = settled((done) => this.#port.open(done));
    const error = await within(OPEN_MS, opening);
    if (error === null) {
      this.#watchPresence();
      return;
    }
    this.#closing = true;
    if (error !== 'late') throw portError(this.#name, error);
    // It may still open behind our back; then it is closed at once.
    void opening.then(() => this.close());
    throw this.#failure(
      'port-stuck',
      `did not open within ${OPEN_MS / 1000} s: unplug the instrument and try again`,
    );
  }

  async write(text: string): Promise<void> {
    if (this.#lost !== null) throw this.#lost;
    const sent = settled((done) => {
      this.#port.write(text, 'latin1', (error) => (error ? done(error) : this.#port.drain(done)));
    });
    const error = await within(WRITE_MS, sent);
    // The binding may report the same trouble as an event first, and that one tells more.
    if (this.#lost !== null) throw this.#lost;
    if (error === 'late') {
      throw this.#failure(
        'port-stuck',
        `took no bytes for ${WRITE_MS / 1000} s: check its flow control, or reset the instrument`,
      );
    }
    if (error !== null) throw openPortError(this.#name, error);
  }

  async close(): Promise<void> {
    this.#closing = true;
    clearInterval(this.#presence);
    if (!this.#port.isOpen) return;
    await within(
      CLOSE_MS,
      settled((done) => this.#port.close(done)),
    );
  }

  /**
   * Looks whether the device file is still there. The binding misses an unplugging that falls between two of its
   * reads: it then reads nothing, without end and without an event; on Windows the event may be missing as well.
   */
  #watchPresence(): void {
    if (process.platform === 'win32') return;
    this.#presence = setInterval(() => {
      access(this.#name).catch((error: unknown) => {
        this.#lose(portGone(this.#name, error));
        void this.close();
      });
    }, PRESENCE_MS).unref();
  }

  #lose(cause: UserError): void {
    if (this.#closing || this.#lost !== null) return;
    this.#lost = cause;
    this.#listener.gone(cause);
  }

  #failure(code: string, what: string): UserError {
    return new UserError(code, `${this.#name} ${what}`, { kind: 'instrument' });
  }
}

/** Turns a callback into a promise of its error, so that a late failure is never unhandled. */
function settled(start: (done: (error?: Error | null) => void) => void): Promise<Error | null> {
  return new Promise((resolve) => start((error) => resolve(error ?? null)));
}

async function within<T>(limitMs: number, work: Promise<T>): Promise<T | 'late'> {
  let timer: NodeJS.Timeout | undefined;
  const late = new Promise<'late'>((resolve) => {
    timer = setTimeout(() => resolve('late'), limitMs);
  });
  try {
    return await Promise.race([work, late]);
  } finally {
    clearTimeout(timer);
  }
}
