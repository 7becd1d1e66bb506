import { randomInt } from 'node:crypto';
import { UserError } from '../../core/user-error.ts';
import { encodeMessage } from '../codec/encode-message.ts';
import type { Grid } from '../codec/grid.ts';
import { PROTOCOL_VERSION, REQUEST_ID_LIMIT } from '../codec/message-layouts.ts';
import type { IAm } from '../codec/messages.ts';
import type { CollectedSweep, Identity, Instrument, Progress } from '../instrument.ts';
import { LineLink, type LinkOptions } from '../line-link.ts';
import type { LineTransport } from '../line-transport.ts';
import { Conversation } from './conversation.ts';
import { ResetError } from './protocol-errors.ts';
import { takeSweep } from './take-sweep.ts';
import { PROTOCOL_TIMES, type ProtocolTimes, SWEEP_TRIES } from './times.ts';

/** Longer lines than the protocol allows are dropped, so this cap only has to leave room to see them fail. */
const LINE_CAP_BYTES = 256;

/** Options of an instrument that speaks the line protocol. */
export interface LineProtocolOptions extends Omit<LinkOptions, 'capBytes'> {
  readonly times?: ProtocolTimes;
}

/**
 * Opens an instrument that speaks our line protocol and meets it.
 * @throws UserError of kind `instrument`
 */
export async function openLineProtocol(
  transport: LineTransport,
  options: LineProtocolOptions = {},
): Promise<Instrument> {
  const link = await LineLink.open(transport, { ...options, capBytes: LINE_CAP_BYTES });
  const conversation = new Conversation(
    link,
    options.times ?? PROTOCOL_TIMES,
    randomInt(1, REQUEST_ID_LIMIT + 1),
  );
  try {
    await conversation.awaitGreeting();
    return new LineProtocolInstrument(conversation, await meet(conversation));
  } catch (error) {
    await link.close();
    throw error;
  }
}

class LineProtocolInstrument implements Instrument {
  readonly #conversation: Conversation;
  #identity: Identity;
  #met = true;
  #sweeping = false;

  constructor(conversation: Conversation, identity: Identity) {
    this.#conversation = conversation;
    this.#identity = identity;
  }

  get identity(): Identity {
    return this.#identity;
  }

  async sweep(grid: Grid, progress: Progress = () => undefined): Promise<CollectedSweep> {
    const badBefore = this.#conversation.badLines;
    this.#sweeping = true;
    const { sweep, reAsks } = await this.#sweepPatiently(grid, progress);
    this.#sweeping = false;
    return {
      raw: { kind: 'reflection', ...sweep, referenceOhm: this.#identity.referenceOhm },
      effort: { badLines: this.#conversation.badLines - badBefore, reAsks },
    };
  }

  async close(): Promise<void> {
    // An instrument that is left in mid-sweep would greet the next program with old points.
    const halt = encodeMessage({ kind: 'halt', id: randomInt(1, REQUEST_ID_LIMIT + 1) });
    await this.#conversation.link.close(this.#sweeping ? `\n${halt}` : undefined);
  }

  /**
   * A reset before the sweep began, or points that the instrument no longer keeps, cost another attempt and not the
   * sweep: {@link SWEEP_TRIES} in all.
   */
  async #sweepPatiently(grid: Grid, progress: Progress): ReturnType<typeof takeSweep> {
    let begun = false;
    const watched: Progress = (received, points) => {
      begun ||= received > 0;
      progress(received, points);
    };
    for (let attempt = 1; ; attempt++) {
      try {
        await this.#meetAgain();
        return await takeSweep(this.#conversation, grid, watched);
      } catch (error) {
        if (error instanceof ResetError) this.#met = false;
        const notBegun = error instanceof ResetError && !begun;
        const notKept = error instanceof UserError && error.code === 'instrument-fault-gone';
        if (attempt === SWEEP_TRIES || (!notBegun && !notKept)) throw error;
      }
    }
  }

  async #meetAgain(): Promise<void> {
    if (this.#met) return;
    const identity = await meet(this.#conversation);
    if (identity.model !== this.#identity.model || identity.serial !== this.#identity.serial) {
      throw new UserError(
        'instrument-changed',
        `another instrument answers at ${this.#conversation.link.name}`,
        {
          kind: 'instrument',
        },
      );
    }
    this.#identity = identity;
    this.#met = true;
  }
}

async function meet(conversation: Conversation): Promise<Identity> {
  const { outcome } = await conversation.ask<IAm>({
    request: (id) => ({ kind: 'who', id, oldest: PROTOCOL_VERSION, newest: PROTOCOL_VERSION }),
    judge: (reply, id) => (reply.kind === 'iam' && reply.id === id ? { result: reply } : 'ignored'),
    firstMs: conversation.times.replyMs,
    idleMs: conversation.times.replyMs,
    resetIsNoLoss: true,
  });
  if (!('result' in outcome)) throw new Error('a reply that is heard here is a result');
  const iam = outcome.result;
  return {
    model: iam.model,
    serial: iam.serial === '0' ? null : iam.serial,
    lowestHz: iam.lowestHz,
    highestHz: iam.highestHz,
    mostPoints: iam.mostPoints,
    corrected: iam.correction === 'cal',
    referenceOhm: iam.referenceMilliohm / 1000,
  };
}
