import { setTimeout as sleep } from 'node:timers/promises';
import { type Command, Option } from 'commander';
import { parseQuantity } from '../core/quantity.ts';
import { cautionsFor } from '../core/safety/cautions.ts';
import { UserError } from '../core/user-error.ts';
import { type Connection, openInstrument } from '../instrument/open-instrument.ts';
import { type Logbook, openLogbook } from '../logbook/logbook.ts';
import { isoWithZone } from '../logbook/time.ts';
import type { ShotsHeard } from './collect-shots.ts';
import { sourceOf } from './correction.ts';
import {
  addInstrumentOptions,
  antennaOf,
  connectionOf,
  type InstrumentFlags,
  numberFlag,
} from './instrument-options.ts';
import type { Io } from './io.ts';
import { addLogbookOptions, type LogbookOptions, logbookFolder, writing } from './logbook-options.ts';
import { type MeasuredBand, type MeasureWish, measureBand } from './measure-band.ts';
import { bandsWanted, planeWanted, pointsWanted, type WishFlags } from './measure-wish.ts';
import { type CausesOf, CauseWatcher } from './on-change.ts';
import { plainText } from './plain-text.ts';
import { shotText } from './shot-text.ts';
import { stoppable } from './stop-signal.ts';
import { type WatchWorld, watchLoop } from './watch-loop.ts';

interface WatchFlags extends InstrumentFlags, WishFlags, LogbookOptions {
  readonly every: string;
  readonly shots: string;
  readonly rounds?: string;
  readonly uncorrected?: boolean;
  readonly onChange?: string;
}

/** A writer that only has to wait long enough costs nothing here. */
const LOCK_WAIT_MS = 300_000;
const SHORTEST_MS = 1000;

const SILENT: ShotsHeard = { pause: () => {}, progress: () => {}, done: () => {} };

/** `turfwire watch`: unattended measuring on a small computer. */
export function register(command: Command, io: Io): void {
  addLogbookOptions(addInstrumentOptions(command))
    .option('--every <TIME>', 'time from round to round, such as 1h or 15min', '1h')
    .option('--band <BANDS>', 'bands, such as 40m,20m (default: those of the site)')
    .option('--shots <N>', 'sweeps of each band in a round', '3')
    .option('--points <N>', 'points of a sweep (default: 101, or what the instrument allows)')
    .addOption(
      new Option('--plane <PLANE>', 'where the instrument is connected').choices(['feedpoint', 'shack']),
    )
    .option('--uncorrected', 'take raw readings as they are')
    .option('--rounds <N>', 'stop after so many rounds (default: never)')
    .option(
      '--on-change <COMMAND>',
      'run this when the likely causes change; it finds them in TURFWIRE_CAUSES',
    )
    .addHelpText(
      'after',
      '\nExample:\n  turfwire watch --port /dev/ttyACM0 --every 1h --band 40m,20m --logbook field',
    )
    .action((flags: WatchFlags) => stoppable((signal) => watch(io, flags, signal)));
}

async function watch(io: Io, flags: WatchFlags, signal: AbortSignal): Promise<void> {
  const folder = logbookFolder(io, flags);
  const everyMs = parseQuantity(flags.every, 'duration', '--every') * 1000;
  if (!(everyMs >= SHORTEST_MS)) {
    throw new UserError('flag-wrong', `needs a time of 1s or more, got "${flags.every}"`, {
      kind: 'command-line',
      place: { field: '--every' },
    });
  }
  const tell = (text: string): void => io.err(plainText(`${isoWithZone(io.now())} ${text}`));
  const wish: MeasureWish = {
    points: pointsWanted(flags),
    shots: numberFlag('--shots', flags.shots, 1, 1000, true),
    pauseMs: 0,
    plane: planeWanted(flags),
    target: 'antenna',
    uncorrected: flags.uncorrected === true,
    text: 'watch',
  };
  const logbook = await openLogbook(folder);
  bandsWanted(flags, logbook.site);
  const { connection, release } = await connectionOf(io, flags, {
    signal,
    antenna: () => antennaOf(logbook, wish.plane),
  });
  for (const caution of cautionsFor('measuring')) io.err(`- ${caution}`);
  const causes = flags.onChange === undefined ? null : new CauseWatcher(flags.onChange, causesOf, tell);
  const round = new Round(io, flags, folder, connection, wish, signal);
  const world: WatchWorld = {
    steadyMs: () => performance.now(),
    wallMs: () => io.now().getTime(),
    sleep: (ms) => sleep(ms, undefined, { signal }).catch(() => {}),
    get stopped() {
      return signal.aborted;
    },
    tell,
  };
  try {
    await watchLoop(
      {
        everyMs,
        rounds: flags.rounds === undefined ? null : numberFlag('--rounds', flags.rounds, 1, 1e9, true),
        round: async () => {
          const measured = await round.measure();
          await causes?.look(folder);
          return measured.map(statusOf).join('; ');
        },
      },
      world,
    );
  } finally {
    release();
  }
}

/** Loaded only when somebody wants to know. */
const causesOf: CausesOf = async (folder) => (await import('./logbook-drift.ts')).causesOfLogbook(folder);

/** One round: every band once, with a connection of its own, so that the port is free in between. */
class Round {
  readonly #io: Io;
  readonly #flags: WatchFlags;
  readonly #folder: string;
  readonly #connection: Connection;
  readonly #wish: MeasureWish;
  readonly #signal: AbortSignal;
  /** The instrument that this watch is about. */
  #source: string | null = null;

  constructor(
    io: Io,
    flags: WatchFlags,
    folder: string,
    connection: Connection,
    wish: MeasureWish,
    signal: AbortSignal,
  ) {
    this.#io = io;
    this.#flags = flags;
    this.#folder = folder;
    this.#connection = connection;
    this.#wish = wish;
    this.#signal = signal;
  }

  async measure(): Promise<MeasuredBand[]> {
    const logbook = await openLogbook(this.#folder);
    const instrument = await openInstrument(this.#connection);
    try {
      this.#requireSame(sourceOf(instrument.identity));
      const measured = await this.#bands(logbook, instrument);
      if (this.#flags.json === true) {
        const { measuredAnswer } = await import('./measure-answer.ts');
        const { json } = measuredAnswer(measured, instrument.identity, this.#wish, logbook.site);
        this.#io.out(JSON.stringify(json));
      }
      return measured;
    } finally {
      await instrument.close();
    }
  }

  async #bands(
    logbook: Logbook,
    instrument: Awaited<ReturnType<typeof openInstrument>>,
  ): Promise<MeasuredBand[]> {
    const session = {
      instrument,
      logbook,
      writing: { ...writing(this.#io), now: this.#io.now, waitMs: LOCK_WAIT_MS },
      signal: this.#signal,
    };
    const measured: MeasuredBand[] = [];
    for (const band of bandsWanted(this.#flags, logbook.site)) {
      const one = await measureBand(session, band, this.#wish, SILENT);
      // Whole shots are stored even so; what failed is told, and tried again.
      if (one.failure !== null) throw one.failure;
      measured.push(one);
    }
    return measured;
  }

  /** After a replug something else may answer at the same port. */
  #requireSame(source: string): void {
    this.#source ??= source;
    if (source === this.#source) return;
    throw new UserError(
      'instrument-changed',
      `"${source}" answers at ${this.#connection.port}, where the watch began with "${this.#source}"`,
      {
        kind: 'instrument',
      },
    );
  }
}

function statusOf({ band, shots, visit }: MeasuredBand): string {
  const last = shots.at(-1);
  return `${band.band} visit ${visit}: ${last === undefined ? 'no shot' : shotText(last.sweep, band)}`;
}
