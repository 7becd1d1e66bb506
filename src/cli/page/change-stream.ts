import type { ServerResponse } from 'node:http';

const BEAT_MS = 25_000;
const MOST_LISTENERS = 50;

/**
 * Tells open pages of changes, as server-sent events.
 * Source: WHATWG HTML, section 9.2, "Server-sent events".
 */
export class ChangeStream {
  readonly #listeners = new Set<ServerResponse>();
  /** A word now and then keeps the way open, and finds out who has gone. */
  readonly #beat: ReturnType<typeof setInterval> = setInterval(
    () => this.#write(': still here\n\n'),
    BEAT_MS,
  );

  open(response: ServerResponse): void {
    if (this.#listeners.size >= MOST_LISTENERS) {
      response.statusCode = 503;
      response.end();
      return;
    }
    response.setHeader('Content-Type', 'text/event-stream; charset=utf-8');
    response.write('retry: 2000\n\n');
    this.#listeners.add(response);
    response.on('close', () => this.#listeners.delete(response));
  }

  tell(): void {
    this.#write('event: changed\ndata:\n\n');
  }

  close(): void {
    clearInterval(this.#beat);
    for (const listener of this.#listeners) listener.end();
  }

  #write(text: string): void {
    for (const listener of this.#listeners) listener.write(text);
  }
}
