import { UserError } from '../core/user-error.ts';
import type { Instrument } from '../instrument/instrument.ts';
import { type Connection, openInstrument } from '../instrument/open-instrument.ts';
import { type Logbook, openLogbook } from '../logbook/logbook.ts';
import type { ShotsHeard } from './collect-shots.ts';
import { sourceOf } from './correction.ts';
import { shotText } from './figures-text.ts';
import type { ProposeMeasure } from './instrument-options.ts';
import type { Io } from './io.ts';
import { writing } from './logbook-options.ts';
import { type MeasuredBand, type MeasureWish, measureBand } from './measure-band.ts';
import { bandsWanted, type WishFlags } from './measure-wish.ts';
import { plainJson } from './plain-text.ts';

/** Unattended, there is time to wait for whoever else writes. */
const LOCK_WAIT_MS = 300_000;

const SILENT: ShotsHeard = { pause: () => {}, progress: () => {}, done: () => {} };

/** What a watch measures in every round. */
export interface RoundWish {
  readonly folder: string;
  readonly bands: WishFlags;
  readonly connection: Connection;
  readonly wish: MeasureWish;
  readonly signal: AbortSignal;
  /** Prints each whole round as one JSON document. */
  readonly asJson: boolean;
  readonly proposeMeasure: ProposeMeasure;
}

/** Rounds of one watch: every band once, over a connection of its own, so that the port is free in between. */
export class WatchRounds {
  readonly #io: Io;
  readonly #wanted: RoundWish;
  /** The instrument that this watch is about. */
  #source: string | null = null;
  #measured: MeasuredBand[] = [];

  constructor(io: Io, wanted: RoundWish) {
    this.#io = io;
    this.#wanted = wanted;
  }

  /**
   * Measures the bands that this round still lacks.
   *
   * @param again - another try at the round that failed last: what it has is kept
   * @returns a line that says what was found
   */
  async measure(again: boolean): Promise<string> {
    if (!again) this.#measured = [];
    const { folder, connection, asJson, wish } = this.#wanted;
    const logbook = await openLogbook(folder);
    const instrument = await openInstrument(connection);
    try {
      this.#requireSame(sourceOf(instrument.identity));
      await this.#measureMissing(logbook, instrument);
    } finally {
      await instrument.close();
    }
    if (asJson) {
      const { measuredAnswer } = await import('./measure-answer.ts');
      const { json } = await measuredAnswer(this.#measured, instrument.identity, wish, logbook);
      this.#io.out(plainJson(json));
    }
    return this.#measured.map((band) => statusOf(band, wish)).join('; ');
  }

  async #measureMissing(logbook: Logbook, instrument: Instrument): Promise<void> {
    const { bands, wish, signal, proposeMeasure } = this.#wanted;
    const patient = { ...writing(this.#io), now: this.#io.now, waitMs: LOCK_WAIT_MS };
    for (const band of bandsWanted(bands, logbook.site).slice(this.#measured.length)) {
      const session = { instrument, logbook, writing: patient, signal, proposeMeasure };
      const visit = this.#measured.at(-1)?.visit ?? null;
      const one = await measureBand(session, band, wish, SILENT, visit);
      // A band with one whole shot is done: trying it again would only make visits of single shots.
      if (one.failure !== null && (one.shots.length === 0 || signal.aborted)) throw one.failure;
      this.#measured.push(one);
    }
  }

  /** After a replug something else may answer at the same port. */
  #requireSame(source: string): void {
    this.#source ??= source;
    if (source === this.#source) return;
    throw new UserError(
      'instrument-changed',
      `"${source}" answers at ${this.#wanted.connection.port}, where the watch began with "${this.#source}"`,
      { kind: 'instrument' },
    );
  }
}

function statusOf({ band, shots, visit }: MeasuredBand, wish: MeasureWish): string {
  const last = shots.at(-1);
  const few = shots.length < wish.shots ? ` (${shots.length} of ${wish.shots} shots)` : '';
  return `${band.band} visit ${visit}${few}: ${last === undefined ? 'no shot' : shotText(last.sweep, band)}`;
}
