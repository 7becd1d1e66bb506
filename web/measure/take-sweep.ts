import { UserError } from '../../src/core/user-error.ts';
import { decodeLine } from '../../src/instrument/codec/decode-line.ts';
import { encodeMessage } from '../../src/instrument/codec/encode-message.ts';
import type { Grid } from '../../src/instrument/codec/grid.ts';
import type { IAm, Reply, Request } from '../../src/instrument/codec/messages.ts';
import { type AssembledSweep, SweepAssembler } from '../../src/instrument/codec/sweep-assembler.ts';
import type { SerialLines } from './serial-lines.ts';

/** The times and counts of the protocol: firmware-protocol/README.md, sections 9 and 10. */
const REPLY_MS = 1000;
const SILENCE_MS = 3000;
const TRIES = 5;
const FRUITLESS = 8;

const OWN_WORDS: readonly string[] = ['who', 'walk', 'again', 'halt', 'there', 'unreadable'];

/** Speaks the line protocol from the page, as far as one sweep needs it. */
export class PageInstrument {
  readonly #lines: SerialLines;
  #id: number = 1 + Math.floor(Math.random() * 60_000);

  constructor(lines: SerialLines) {
    this.#lines = lines;
  }

  /** Asks who is there. @throws UserError `instrument-silent`, `instrument-fault` */
  async meet(): Promise<IAm> {
    for (let attempt = 0; attempt < TRIES; attempt++) {
      const id = this.#nextId();
      await this.#send({ kind: 'who', id, oldest: 1, newest: 1 });
      for (let reply = await this.#hear(REPLY_MS); reply !== null; reply = await this.#hear(REPLY_MS)) {
        if (reply.kind === 'iam' && reply.id === id) return reply;
        if (reply.kind === 'fault' && reply.id === id && reply.code !== 'busy') throw faulty(reply.text);
      }
    }
    throw new UserError('instrument-silent', 'nothing on this port speaks the line protocol', {
      kind: 'instrument',
    });
  }

  /**
   * Takes one sweep, whole or not at all.
   * @param progress - hears how many points there are
   * @throws UserError `instrument-fault`, `sweep-incomplete`, `sweep-other-grid`
   */
  async sweep(grid: Grid, progress: (received: number) => void): Promise<AssembledSweep> {
    const id = this.#nextId();
    const assembler = new SweepAssembler(id, grid);
    let request: Request | null = { kind: 'walk', id, ...grid };
    let fruitless = 0;
    while (request !== null && fruitless < FRUITLESS) {
      const before = assembler.received;
      await this.#send(request);
      await this.#listen(assembler, id, progress);
      fruitless = assembler.received > before ? 0 : fruitless + 1;
      // Nothing has come at all: the request itself was lost.
      request =
        assembler.received === 0 && !assembler.ended ? { kind: 'walk', id, ...grid } : assembler.nextAgain();
    }
    const sweep = assembler.sweep();
    if (sweep !== null) return sweep;
    const message = `sent ${assembler.received} of ${grid.points} points intact, and not the rest: check the cable`;
    throw new UserError('sweep-incomplete', message, { kind: 'instrument' });
  }

  /** Takes what comes until the instrument closes the sweep, or is silent. */
  async #listen(assembler: SweepAssembler, id: number, progress: (received: number) => void): Promise<void> {
    for (let reply = await this.#hear(SILENCE_MS); reply !== null; reply = await this.#hear(SILENCE_MS)) {
      if (reply.kind === 'fault' && reply.id === id) throw faulty(reply.text);
      if (reply.kind === 'woke') throw faulty('it was switched off and on');
      if (assembler.accept(reply) === 'other-grid') {
        throw new UserError('sweep-other-grid', 'sweeps other frequencies than those asked for', {
          kind: 'instrument',
        });
      }
      progress(assembler.received);
      if (reply.kind === 'end') return;
    }
  }

  /** The next whole reply; null after silence. */
  async #hear(waitMs: number): Promise<Reply | null> {
    for (let line = await this.#lines.next(waitMs); line !== null; line = await this.#lines.next(waitMs)) {
      const message = decodeLine(line);
      if (!OWN_WORDS.includes(message.kind)) return message as Reply;
    }
    return null;
  }

  /** A bare LF first ends whatever half line the instrument holds. */
  #send(request: Request): Promise<void> {
    return this.#lines.send(`\n${encodeMessage(request)}`);
  }

  #nextId(): number {
    this.#id = (this.#id % 65_535) + 1;
    return this.#id;
  }
}

function faulty(text: string): UserError {
  return new UserError('instrument-fault', `the instrument gave up: ${text}`, { kind: 'instrument' });
}
