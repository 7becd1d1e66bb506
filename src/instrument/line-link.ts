import { UserError } from '../core/user-error.ts';
import { LineSplitter } from './codec/line-splitter.ts';
import type { LineTransport } from './line-transport.ts';

/** What a line meant to an exchange: nothing, a sign that the answer is under way, or its end. */
export type Heard<T> = 'ignored' | 'heard' | { readonly result: T };

/** One request and everything that answers it. */
export interface Exchange<T> {
  /** Sent first; absent when we only listen. */
  readonly send?: string;
  /** Told of every whole line that arrives. What it throws ends the exchange. */
  take(line: Uint8Array): Heard<T>;
  /** How long to wait for the first line that is `heard`. */
  readonly firstMs: number;
  /** How long to wait for each next one. */
  readonly idleMs: number;
  /** The longest the whole may take. */
  readonly totalMs?: number;
}

/** The end of an exchange: its result, or how far it came before the time ran out. */
export type Outcome<T> = { readonly result: T } | { readonly silentAfter: 'nothing' | 'something' };

/** What went over the wire since the link was opened. */
export interface WireCounts {
  readonly bytes: number;
  readonly lines: number;
  /** Lines that outgrew the cap. */
  readonly overlongLines: number;
  /** Whole lines that came when nothing was asked. */
  readonly unaskedLines: number;
}

/** Options of one connection. */
export interface LinkOptions {
  readonly capBytes?: number;
  /** Is given every byte that arrives, before anything else sees it. */
  readonly tap?: ((chunk: Uint8Array) => void) | undefined;
  /** Ends whatever is under way. */
  readonly signal?: AbortSignal | undefined;
}

/**
 * One connection as a row of exchanges, one at a time. Each connection has a splitter of its own, so no half line
 * outlives it; the tail that a closing connection leaves is never taken for a line. The splitter is ours and not
 * `@serialport/parser-readline`, because that one has no cap (its time grows with the square of the noise) and
 * emits an unfinished tail as if it were a line.
 */
export class LineLink {
  readonly #transport: LineTransport;
  readonly #options: LinkOptions;
  readonly #splitter: LineSplitter;
  #current: Running | null = null;
  #gone: Error | null = null;
  #bytes = 0;
  #lines = 0;
  #unaskedLines = 0;

  private constructor(transport: LineTransport, options: LinkOptions) {
    this.#transport = transport;
    this.#options = options;
    this.#splitter = new LineSplitter(options.capBytes);
  }

  /** @throws UserError of kind `instrument` when the transport cannot be opened */
  static async open(transport: LineTransport, options: LinkOptions = {}): Promise<LineLink> {
    const link = new LineLink(transport, options);
    if (options.signal?.aborted === true) throw interrupted();
    await transport.open({
      bytes: (chunk) => link.#receive(chunk),
      gone: (cause) => link.#lose(cause),
    });
    options.signal?.addEventListener('abort', link.#abort, { once: true });
    return link;
  }

  get name(): string {
    return this.#transport.name;
  }

  get counts(): WireCounts {
    return {
      bytes: this.#bytes,
      lines: this.#lines,
      overlongLines: this.#splitter.droppedLines,
      unaskedLines: this.#unaskedLines,
    };
  }

  /**
   * Sends a request and hears its answer.
   * @throws UserError of kind `instrument` when the connection is lost, and whatever `take` throws
   */
  async exchange<T>(exchange: Exchange<T>): Promise<Outcome<T>> {
    if (this.#current !== null) throw new Error('an exchange is under way');
    if (this.#gone !== null) throw this.#gone;
    const running = new Running(exchange as Exchange<unknown>);
    this.#current = running;
    try {
      // The answer may arrive before the write is known to be done, so both are watched at once.
      if (exchange.send !== undefined)
        await Promise.race([this.#transport.write(exchange.send), running.ended]);
      running.start();
      return (await running.ended) as Outcome<T>;
    } finally {
      running.stop();
      this.#current = null;
    }
  }

  /** @param parting - a last word for the instrument, sent if the wire still carries it */
  async close(parting?: string): Promise<void> {
    if (parting !== undefined) await this.#transport.write(parting).catch(() => undefined);
    this.#options.signal?.removeEventListener('abort', this.#abort);
    await this.#transport.close();
  }

  #receive(chunk: Uint8Array): void {
    this.#options.tap?.(chunk);
    this.#bytes += chunk.length;
    for (const line of this.#splitter.push(chunk)) {
      this.#lines++;
      if (this.#current?.over === false) this.#current.take(line);
      else this.#unaskedLines++;
    }
  }

  #lose(cause: Error): void {
    this.#splitter.discardTail();
    this.#gone = cause;
    this.#current?.fail(cause);
  }

  readonly #abort = (): void => this.#lose(interrupted());
}

/** The user, or the system, asked us to stop. */
export function interrupted(): UserError {
  return new UserError('interrupted', 'stopped; the sweep in hand was dropped', { kind: 'instrument' });
}

/** An exchange with its clock. One timer serves all deadlines, because most are moved on before they fall due. */
class Running {
  readonly ended: Promise<Outcome<unknown>>;
  over = false;
  readonly #exchange: Exchange<unknown>;
  #settle!: (outcome: Outcome<unknown>) => void;
  #reject!: (error: Error) => void;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #heard = false;
  #deadline = Number.POSITIVE_INFINITY;
  #lastCall = Number.POSITIVE_INFINITY;

  constructor(exchange: Exchange<unknown>) {
    this.#exchange = exchange;
    this.ended = new Promise((resolve, reject) => {
      this.#settle = resolve;
      this.#reject = reject;
    });
    // A failure during the write is reported by the race; here it must not count as unhandled.
    this.ended.catch(() => undefined);
  }

  /** The request has left: from here on the answer is waited for. */
  start(): void {
    if (this.over) return;
    const now = performance.now();
    if (this.#exchange.totalMs !== undefined) this.#lastCall = now + this.#exchange.totalMs;
    if (!this.#heard) this.#deadline = now + this.#exchange.firstMs;
    this.#arm();
  }

  take(line: Uint8Array): void {
    try {
      const heard = this.#exchange.take(line);
      if (heard === 'ignored') return;
      this.#heard = true;
      if (heard === 'heard') this.#deadline = performance.now() + this.#exchange.idleMs;
      else this.#finish(heard);
    } catch (error) {
      this.fail(error as Error);
    }
  }

  fail(error: Error): void {
    if (this.over) return;
    this.stop();
    this.#reject(error);
  }

  stop(): void {
    this.over = true;
    clearTimeout(this.#timer);
  }

  #finish(outcome: Outcome<unknown>): void {
    this.stop();
    this.#settle(outcome);
  }

  #arm(): void {
    const due = Math.min(this.#deadline, this.#lastCall);
    this.#timer = setTimeout(() => this.#ring(), Math.max(0, due - performance.now()));
  }

  #ring(): void {
    const now = performance.now();
    // A timer may ring up to a millisecond early.
    if (now + 1 < Math.min(this.#deadline, this.#lastCall)) this.#arm();
    else this.#finish({ silentAfter: this.#heard ? 'something' : 'nothing' });
  }
}
