import { setTimeout as sleep } from 'node:timers/promises';
import { type Command, Option } from 'commander';
import { parseQuantity } from '../core/quantity.ts';
import { cautionsFor } from '../core/safety/cautions.ts';
import { UserError } from '../core/user-error.ts';
import { isSimulatedPort } from '../instrument/open-instrument.ts';
import { isoWithZone } from '../logbook/time.ts';
import {
  addInstrumentOptions,
  antennaOf,
  connectionOf,
  type InstrumentFlags,
  numberFlag,
  proposeMeasureWith,
} from './instrument-options.ts';
import type { Io } from './io.ts';
import { addLogbookOptions, type LogbookOptions, logbookFolder } from './logbook-options.ts';
import type { MeasureWish } from './measure-band.ts';
import {
  addRangeOptions,
  andBands,
  BANDS_HELP,
  bandsWanted,
  planeWanted,
  pointsWanted,
  rangeAsked,
  type WishFlags,
} from './measure-wish.ts';
import { type CausesOf, CauseWatcher } from './on-change.ts';
import { openOwnLogbook } from './own-logbook.ts';
import { simulatedApart } from './simulated-apart.ts';
import { stoppable } from './stop-signal.ts';
import { type WatchWorld, watchLoop } from './watch-loop.ts';
import { WatchRounds } from './watch-round.ts';

interface WatchFlags extends InstrumentFlags, WishFlags, LogbookOptions {
  readonly every: string;
  readonly shots: string;
  readonly rounds?: string;
  readonly uncorrected?: boolean;
  readonly onChange?: string;
}

const SHORTEST_MS = 1000;

/** `turfwire watch`: unattended measuring on a small computer. */
export function register(command: Command, io: Io): void {
  addRangeOptions(addLogbookOptions(addInstrumentOptions(command)))
    .option('--every <TIME>', 'time from round to round, such as 1h or 15min', '1h')
    .option('--band <BANDS>', BANDS_HELP, andBands)
    .option('--shots <N>', 'sweeps of each band in a round', '3')
    .option('--points <N>', 'points of a sweep (default: 101, or what the instrument allows)')
    .addOption(
      new Option('--plane <PLANE>', 'where the instrument is connected').choices(['feedpoint', 'shack']),
    )
    .option('--uncorrected', 'take raw readings as they are')
    .option('--rounds <N>', 'stop after this many rounds (default: never)')
    .option(
      '--on-change <COMMAND>',
      'after each round, diagnose; when a likely cause has come or gone for two rounds, or one is clear, run this, with the causes in TURFWIRE_CAUSES and those before in TURFWIRE_CAUSES_BEFORE',
    )
    .addHelpText(
      'after',
      '\nExamples:\n  turfwire watch --port /dev/ttyACM0 --every 1h --band 40m,20m --logbook field' +
        '\n  turfwire watch --port /dev/ttyACM0 --on-change \'echo "$TURFWIRE_CAUSES" >> changes.txt\' --logbook field',
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
  const tell = (text: string): void => io.err(`${isoWithZone(io.now())} ${text}`);
  const logbook = await openOwnLogbook(io, flags);
  const bands = bandsWanted(flags, logbook.site);
  const wish: MeasureWish = {
    points: pointsWanted(flags),
    asked: rangeAsked(flags, bands),
    shots: numberFlag('--shots', flags.shots, 1, 1000, true),
    pauseMs: 0,
    plane: planeWanted(flags),
    target: 'antenna',
    uncorrected: flags.uncorrected === true,
    text: 'watch',
  };
  simulatedApart(isSimulatedPort(flags.port), logbook, '--port');
  const { connection, release } = await connectionOf(io, flags, {
    signal,
    antenna: () => antennaOf(logbook, wish.plane),
  });
  for (const caution of cautionsFor('measuring')) io.err(`- ${caution}`);
  const causes = flags.onChange === undefined ? null : new CauseWatcher(flags.onChange, causesOf, tell);
  const rounds = new WatchRounds(io, {
    folder,
    bands: flags,
    connection,
    wish,
    signal,
    asJson: flags.json === true,
    proposeMeasure: proposeMeasureWith(io, flags),
  });
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
        round: async (again) => {
          const status = await rounds.measure(again);
          await causes?.look(folder);
          return status;
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
