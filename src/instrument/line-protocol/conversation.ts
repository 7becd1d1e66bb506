import { decodeLine } from '../codec/decode-line.ts';
import { encodeMessage } from '../codec/encode-message.ts';
import { REQUEST_ID_LIMIT } from '../codec/message-layouts.ts';
import type { Fault, Reply, Request } from '../codec/messages.ts';
import { deviceText } from '../device-text.ts';
import type { Heard, LineLink, Outcome } from '../line-link.ts';
import { faultError, noAnswer, ResetError } from './protocol-errors.ts';
import { type ProtocolTimes, REQUEST_TRIES } from './times.ts';

/** A request that was sent, and how it ended. */
export interface Answered<T> {
  readonly id: number;
  readonly outcome: Outcome<T>;
}

/** How to ask for something. */
export interface Question<T> {
  /** The request with the id that it is to carry. */
  request(id: number): Request;
  /** Judges every reply but faults, greetings, and echoes of our own requests. */
  judge(reply: Reply, id: number): Heard<T>;
  readonly firstMs: number;
  readonly idleMs: number;
  /** True while meeting: a greeting then only means that the request came too early. */
  readonly resetIsNoLoss?: boolean;
}

/** Marks an attempt that is to be made again. */
const ONCE_MORE: unique symbol = Symbol('once more');

/**
 * The host's side of the line protocol, one request at a time (firmware-protocol/README.md, section 9): ids, repeated
 * attempts, faults, resets, and a count of what could not be read.
 */
export class Conversation {
  readonly link: LineLink;
  readonly times: ProtocolTimes;
  #lastId: number;
  #badLines = 0;
  #firstBadLine: string | null = null;
  #busy: Fault | null = null;

  /** @param firstId - drawn at random, so that a restarted program does not use the ids of the one before */
  constructor(link: LineLink, times: ProtocolTimes, firstId: number) {
    this.link = link;
    this.times = times;
    this.#lastId = firstId;
  }

  get badLines(): number {
    return this.#badLines;
  }

  /**
   * Asks, and asks again with a new id when nothing comes back.
   * @throws UserError of kind `instrument`; {@link ResetError} when the instrument has to be met anew
   */
  async ask<T>(question: Question<T>): Promise<Answered<T>> {
    for (let attempt = 1; attempt <= REQUEST_TRIES; attempt++) {
      const id = this.#nextId();
      const outcome = await this.once(id, question);
      if ('result' in outcome ? outcome.result !== ONCE_MORE : outcome.silentAfter === 'something') {
        return { id, outcome: outcome as Outcome<T> };
      }
      if (this.#busy !== null && attempt === REQUEST_TRIES) throw faultError(this.link.name, this.#busy);
      if (this.#busy !== null) await this.#pause(this.times.busyMs);
    }
    throw noAnswer(this.link.name, {
      counts: this.link.counts,
      badLines: this.#badLines,
      firstBadLine: this.#firstBadLine,
    });
  }

  /** One attempt under a given id. A bare LF first ends whatever half line the instrument holds. */
  async once<T>(id: number, question: Question<T>): Promise<Outcome<T | typeof ONCE_MORE>> {
    this.#busy = null;
    let heard = false;
    return await this.link.exchange<T | typeof ONCE_MORE>({
      send: `\n${encodeMessage(question.request(id))}`,
      firstMs: question.firstMs,
      idleMs: question.idleMs,
      take: (line) => {
        const message = decodeLine(line);
        switch (message.kind) {
          case 'unreadable':
            this.#countBad(line);
            return 'ignored';
          // The words of a host are our own echo.
          case 'who':
          case 'walk':
          case 'again':
          case 'halt':
          case 'there':
            return 'ignored';
          case 'woke':
            if (question.resetIsNoLoss !== true) throw new ResetError(this.link.name);
            return { result: ONCE_MORE };
          case 'fault':
            // A complaint may be about half a line of an earlier conversation, or of another program.
            if (message.id === 0 && (heard || question.resetIsNoLoss === true)) return 'ignored';
            return this.#takeFault(message, id);
          default: {
            const judged = question.judge(message, id);
            heard ||= judged !== 'ignored';
            return judged;
          }
        }
      },
    });
  }

  /** Waits for the power-up greeting, but not for long: not every instrument is reset by an opening. */
  async awaitGreeting(): Promise<void> {
    await this.link.exchange<true>({
      firstMs: this.times.greetingMs,
      idleMs: this.times.greetingMs,
      take: (line) => (decodeLine(line).kind === 'woke' ? { result: true } : 'ignored'),
    });
  }

  #takeFault(fault: Fault, id: number): Heard<typeof ONCE_MORE> {
    if (fault.id !== id && fault.id !== 0) return 'ignored';
    if (fault.code === 'unmet') throw new ResetError(this.link.name);
    if (fault.code === 'garbled') return { result: ONCE_MORE };
    if (fault.code !== 'busy') throw faultError(this.link.name, fault);
    this.#busy = fault;
    return { result: ONCE_MORE };
  }

  async #pause(ms: number): Promise<void> {
    await this.link.exchange({ firstMs: ms, idleMs: ms, take: () => 'ignored' });
  }

  #nextId(): number {
    this.#lastId = (this.#lastId % REQUEST_ID_LIMIT) + 1;
    return this.#lastId;
  }

  #countBad(line: Uint8Array): void {
    this.#badLines++;
    this.#firstBadLine ??= deviceText(line);
  }
}
