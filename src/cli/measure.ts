import { type Command, Option } from 'commander';
import { parseQuantity } from '../core/quantity.ts';
import type { Band } from '../core/sweep/bands.ts';
import { UserError } from '../core/user-error.ts';
import { plural } from '../formats/words.ts';
import { isSimulatedPort, openInstrument } from '../instrument/open-instrument.ts';
import { SIMULATOR_HELP } from '../instrument/simulator/simulator-options.ts';
import type { JournalEntry } from '../logbook/journal-reader.ts';
import { isoWithZone } from '../logbook/time.ts';
import { printAnswer } from './answer.ts';
import { sourceOf } from './correction.ts';
import { printAndFail } from './failure.ts';
import {
  addInstrumentOptions,
  antennaOf,
  connectionOf,
  type InstrumentFlags,
  numberFlag,
  type ProposeMeasure,
  proposeMeasureWith,
} from './instrument-options.ts';
import type { Io } from './io.ts';
import { loadDoubtText } from './load-doubt-text.ts';
import { addLogbookOptions, type LogbookOptions, tellBackdated, writing } from './logbook-options.ts';
import { measuredAnswer } from './measure-answer.ts';
import {
  loadBefore,
  type MeasuredBand,
  type MeasureSession,
  type MeasureWish,
  measureBand,
} from './measure-band.ts';
import { measureStandard } from './measure-standard.ts';
import {
  addRangeOptions,
  andBands,
  BANDS_HELP,
  bandsWanted,
  planeWanted,
  pointsWanted,
  rangeAsked,
  type StandardFlags,
  standardWanted,
  type WishFlags,
} from './measure-wish.ts';
import { openOwnLogbook } from './own-logbook.ts';
import { shotsOnTerminal } from './shots-on-terminal.ts';
import { simulatedApart } from './simulated-apart.ts';
import { stoppable } from './stop-signal.ts';
import { workCautions } from './work-cautions.ts';

interface MeasureFlags extends InstrumentFlags, WishFlags, StandardFlags, LogbookOptions {
  readonly shots: string;
  readonly pause: string;
  readonly text?: string;
  readonly referenceLoad?: boolean;
  readonly uncorrected?: boolean;
  /** False with `--no-store`. */
  readonly store: boolean;
}

/** What makes a shot worth having. */
function coaching(proposeMeasure: ProposeMeasure, loadVisit: number | null): string {
  return [
    'use the same choke on the coax, and leave the instrument and all else where they were last time',
    loadVisit === null
      ? `sweep the reference load first, and it joins the visit of the antenna: ${proposeMeasure('--reference-load')}`
      : `the reference load was swept as visit ${loadVisit}: these shots join it`,
    'let go of the coax and step back before each shot',
    'take the connector off and on between shots: --pause 20s gives you the time',
  ]
    .map((advice) => `- ${advice}`)
    .join('\n');
}

/** `turfwire measure`: sweeps from an instrument on a wire into the logbook. */
export function register(command: Command, io: Io): void {
  addRangeOptions(addLogbookOptions(addInstrumentOptions(command)))
    .option('--band <BANDS>', BANDS_HELP, andBands)
    .option('--shots <N>', 'sweeps of each band', '3')
    .option('--pause <TIME>', 'time between two shots, to take the connector off and on, such as 20s', '0s')
    .option('--points <N>', 'points of a sweep (default: 101, or what the instrument allows)')
    .addOption(
      new Option('--plane <PLANE>', 'where the instrument is connected').choices(['feedpoint', 'shack']),
    )
    .option('--reference-load', 'the reference load is connected, not the antenna')
    .addOption(
      new Option('--standard <NAME>', 'log a calibration standard').choices(['open', 'short', 'load']),
    )
    .option('--standard-delay <TIME>', 'its one-way offset delay, such as 30ps')
    .option('--standard-capacitance <C>', 'its shunt capacitance, such as 50fF')
    .option('--standard-inductance <L>', 'its series inductance, such as 2nH')
    .option('--standard-resistance <R>', 'resistance of a load, such as 49.8ohm')
    .option('--uncorrected', 'take raw readings as they are')
    .option('--no-store', 'show the sweeps and store nothing; no logbook is needed')
    .option('--text <REMARK>', 'a remark in your own words')
    .addHelpText(
      'after',
      `\nSettings of the simulator, such as --port simulated:drop=0.1,seed=7\n${SIMULATOR_HELP}\n\nExample:\n  turfwire measure --port simulated --band 40m --shots 3 --no-store`,
    )
    .action((flags: MeasureFlags) => stoppable((signal) => measure(io, flags, signal)));
}

async function measure(io: Io, flags: MeasureFlags, signal: AbortSignal): Promise<void> {
  const logbook = flags.store ? await openOwnLogbook(io, flags) : null;
  const bands = bandsWanted(flags, logbook?.site ?? null);
  const wish = wishOf(flags, bands);
  const standard = standardWanted(flags);
  const proposeMeasure = proposeMeasureWith(io, flags);
  if (logbook !== null) {
    simulatedApart(isSimulatedPort(flags.port), logbook, '--port');
    tellBackdated(io, logbook);
  }
  const { connection, release } = await connectionOf(io, flags, {
    signal,
    connected: standard?.standard ?? wish.target,
    antenna: () => antennaOf(logbook, wish.plane),
  });
  const measured = ({ event: { event } }: JournalEntry) => event === 'shot' || event === 'standard';
  for (const line of workCautions(['measuring'], logbook?.journal.entries ?? [], measured, io.now()))
    io.err(line);
  if (standard === null && wish.target === 'antenna') {
    const load = loadBefore(logbook?.visits ?? [], isoWithZone(io.now()));
    io.err(`A shot worth keeping:\n${coaching(proposeMeasure, load?.visit ?? null)}`);
  }
  try {
    const instrument = await openInstrument(connection);
    try {
      io.err(
        `Instrument: ${sourceOf(instrument.identity)}${instrument.identity.corrected ? '' : ', raw readings'}`,
      );
      const session = {
        instrument,
        logbook,
        writing: { ...writing(io), now: io.now },
        signal,
        proposeMeasure,
      };
      if (standard !== null) await measureStandard(io, session, standard, bands, wish, flags.json === true);
      else await measureBands(io, session, bands, wish, flags.json === true);
    } finally {
      await instrument.close();
    }
  } finally {
    release();
  }
}

async function measureBands(
  io: Io,
  session: MeasureSession,
  bands: readonly Band[],
  wish: MeasureWish,
  asJson: boolean,
): Promise<void> {
  const measured: MeasuredBand[] = [];
  let failure: UserError | null = null;
  for (const band of bands) {
    const heard = await shotsOnTerminal(io, band, wish);
    try {
      const visit = measured.at(-1)?.visit ?? null;
      const one = await measureBand(session, band, wish, heard, visit).finally(heard.stop);
      measured.push(one);
      failure = one.failure;
    } catch (error) {
      // What the bands before it showed is stored, and has to be told all the same.
      if (!(error instanceof UserError)) throw error;
      failure = error;
    }
    if (failure !== null) break;
  }
  const whole = measured.filter(({ shots }) => shots.length > 0);
  if (failure !== null && whole.length === 0) throw failure;
  if (wish.target === 'reference-load') {
    const doubt = loadDoubtText(whole.flatMap(({ shots }) => shots.map(({ sweep }) => sweep)));
    if (doubt !== null) io.err(`turfwire: ${doubt}`);
  }
  const answer = await measuredAnswer(whole, session.instrument.identity, wish, session.logbook);
  if (failure === null) printAnswer(io, answer, asJson);
  else printAndFail(io, answer, asJson, withShotsKept(failure, whole));
}

/** A failure that also says what it did not cost. */
function withShotsKept(failure: UserError, whole: readonly MeasuredBand[]): UserError {
  const kept = whole.filter(({ visit }) => visit !== null).reduce((sum, { shots }) => sum + shots.length, 0);
  if (kept === 0) return failure;
  const { code, kind, place } = failure;
  const message = `${failure.message} (whole and stored: ${plural(kept, 'shot')} before it)`;
  return new UserError(code, message, { kind, place, cause: failure });
}

function wishOf(flags: MeasureFlags, bands: readonly Band[]): MeasureWish {
  return {
    points: pointsWanted(flags),
    asked: rangeAsked(flags, bands),
    shots: numberFlag('--shots', flags.shots, 1, 1000, true),
    pauseMs: parseQuantity(flags.pause, 'duration', '--pause') * 1000,
    plane: planeWanted(flags),
    target: flags.referenceLoad === true ? 'reference-load' : 'antenna',
    uncorrected: flags.uncorrected === true,
    text: flags.text ?? '',
  };
}
