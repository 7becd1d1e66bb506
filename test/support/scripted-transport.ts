import { decodeLine } from '../../src/instrument/codec/decode-line.ts';
import { encodeMessage } from '../../src/instrument/codec/encode-message.ts';
import type { Message, Reply, Request } from '../../src/instrument/codec/messages.ts';
import type { LineTransport, TransportListener } from '../../src/instrument/line-transport.ts';

/** A wire whose far end the test plays, line by line. */
export class ScriptedTransport implements LineTransport {
  readonly name = 'scripted';
  /** Requests of the line protocol that were sent, in order. */
  readonly requests: Request[] = [];
  readonly written: string[] = [];
  closed = false;
  #listener: TransportListener | null = null;
  readonly #answer: (request: Request, wire: ScriptedTransport) => void;

  /** @param answer - is given each request of the line protocol */
  constructor(answer: (request: Request, wire: ScriptedTransport) => void = () => {}) {
    this.#answer = answer;
  }

  async open(listener: TransportListener): Promise<void> {
    this.#listener = listener;
    this.closed = false;
  }

  async write(text: string): Promise<void> {
    this.written.push(text);
    for (const line of text.split('\n')) {
      const message: Message | { kind: 'unreadable' } = decodeLine(line);
      if (message.kind === 'unreadable') continue;
      this.requests.push(message as Request);
      // The answer comes after the write is done, as on a wire.
      setImmediate(() => this.#answer(message as Request, this));
    }
  }

  async close(): Promise<void> {
    this.closed = true;
    this.#listener = null;
  }

  /** Bytes arrive. */
  bytes(text: string): void {
    this.#listener?.bytes(Buffer.from(text, 'latin1'));
  }

  say(...replies: Reply[]): void {
    this.bytes(replies.map((reply) => encodeMessage(reply)).join(''));
  }

  pull(cause: Error): void {
    this.#listener?.gone(cause);
  }
}
