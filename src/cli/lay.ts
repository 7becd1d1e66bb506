import type { Command } from 'commander';
import type { RadialEvent } from '../core/journal-event.ts';
import { bearingsBetween } from '../core/layout/bearings.ts';
import { fieldStateAt, requireFieldConsistent } from '../core/layout/field-state.ts';
import { radialsHang } from '../core/layout/raised.ts';
import { formatLength, parseQuantity } from '../core/quantity.ts';
import { type CautionJob, cautionsFor } from '../core/safety/cautions.ts';
import type { Site } from '../core/site.ts';
import { UserError } from '../core/user-error.ts';
import { type Appended, appendEvents, type Logbook } from '../logbook/logbook.ts';
import { printAnswer } from './answer.ts';
import type { Io } from './io.ts';
import { layOddities } from './lay-oddities.ts';
import {
  addLoggingOptions,
  fieldText,
  happening,
  type LoggingOptions,
  logbookFolder,
  tellEarly,
  withdrawText,
  writing,
} from './logbook-options.ts';
import { numbered, parseNumbers } from './numbers.ts';
import { openOwnLogbook } from './own-logbook.ts';
import { workCautions } from './work-cautions.ts';

interface LayOptions extends LoggingOptions {
  readonly count?: string;
  readonly length?: string[];
  readonly bearing?: string[];
  readonly from?: string;
  readonly to?: string;
  readonly planned?: string[];
}

type Wire = Pick<RadialEvent, 'lengthM' | 'bearingDeg' | 'route'>;

/** `turfwire lay`: logs radials that were laid. */
export function register(command: Command, io: Io): void {
  addLoggingOptions(command)
    .option('--count <N>', 'how many radials')
    .option('--length <LENGTH...>', 'length of each, such as 6m; or one length for every radial')
    .option(
      '--bearing <ANGLE...>',
      'bearing of each from true north, 0deg to below 360deg, such as 30deg 120deg',
    )
    .option('--from <ANGLE>', 'spread them evenly over the bearings (from true north) from here …')
    .option('--to <ANGLE>', '… clockwise to here; 0deg to 360deg is the full circle')
    .option('--planned <NUMBERS...>', 'the planned radials with these numbers, such as 5-8')
    .addHelpText('after', '\nExample:\n  turfwire lay --count 4 --length 6m --from 0deg --to 270deg')
    .action(async (options: LayOptions) => {
      const folder = logbookFolder(io, options);
      const common = happening(io, options);
      const appended = await appendEvents(
        folder,
        (logbook) => {
          const events = radialsOf(options, logbook).map((radial) => ({ ...common, ...radial }));
          requireFieldConsistent(logbook.events, [...logbook.events, ...events]);
          return events;
        },
        writing(io),
      );
      const logbook = await openOwnLogbook(io, options);
      tellEarly(io, logbook, common.time);
      for (const odd of layOddities(appended.events, logbook)) io.err(`turfwire: ${odd}`);
      const below = [
        withdrawText(io, appended.rows, options),
        '',
        ...cautionLines(appended, logbook, io.now()),
      ];
      printAnswer(io, answerOf(appended, logbook, common.time, below), options.json === true);
    });
}

function answerOf(
  { events: laid, rows }: Appended<RadialEvent>,
  logbook: Logbook,
  time: string,
  below: readonly string[],
) {
  const { site } = logbook;
  const state = fieldStateAt(logbook.fieldStates, time);
  const wireM = laid.reduce((sum, { lengthM }) => sum + lengthM, 0);
  const radials = numbered(
    'radial',
    laid.map(({ number }) => number),
  );
  return {
    json: {
      laid: laid.map(({ number, lengthM, bearingDeg, route }) => ({ number, lengthM, bearingDeg, route })),
      rows,
      fieldState: { since: state.since, radials: state.radials.length, wireM: state.wireM },
      cautions: jobsOf(site).flatMap((job) => cautionsFor(job, site.units)),
    },
    text:
      `Logged as laid: ${radials}, ${formatLength(wireM, site.units)} of wire; ${fieldText(logbook, time)}.\n` +
      below.join('\n'),
  };
}

/** Wires in the air ask for a ladder, not for a spade. */
function jobsOf({ antenna }: Site): readonly CautionJob[] {
  return radialsHang(antenna) ? ['ladders', 'hanging'] : ['digging', 'laying'];
}

function cautionLines({ rows }: Appended<RadialEvent>, { journal, site }: Logbook, now: Date): string[] {
  const [first = 0] = rows;
  const earlier = journal.entries.filter(({ sequence }) => sequence < first);
  return workCautions(jobsOf(site), earlier, ({ event }) => event.event === 'lay', now, site.units);
}

/** The radials that the options tell of, with their numbers. */
function radialsOf(options: LayOptions, logbook: Logbook): Omit<RadialEvent, 'time' | 'text'>[] {
  if (options.planned !== undefined) return plannedRadials(options, options.planned, logbook);
  return wiresOf(options).map((wire, i) => ({ event: 'lay', number: logbook.nextRadial + i, ...wire }));
}

function plannedRadials(options: LayOptions, texts: readonly string[], { planned }: Logbook) {
  const { count, length, bearing, from, to } = options;
  if ([count, length, bearing, from, to].some((given) => given !== undefined)) {
    throw wrong('--planned', 'takes length and bearing from the plan: leave the other options out');
  }
  return parseNumbers(texts, '--planned').map((wanted) => {
    const radial = planned.find(({ number }) => number === wanted);
    if (radial === undefined) {
      const numbers = planned.map(({ number }) => number);
      const open =
        numbers.length === 0
          ? 'no plan is open, `turfwire plan --apply` makes one'
          : `${numbered('radial', numbers)} ${numbers.length === 1 ? 'is' : 'are'}`;
      throw new UserError('radial-not-planned', `radial ${wanted} is not planned: ${open}`);
    }
    const { number, lengthM, bearingDeg, route } = radial;
    return { event: 'lay' as const, number, lengthM, bearingDeg, route };
  });
}

function wiresOf(options: LayOptions): Wire[] {
  const lengthsM = (options.length ?? []).map((text) => parseQuantity(text, 'length', '--length'));
  const bearingsDeg = (options.bearing ?? []).map((text) => bearingOf(text, '--bearing'));
  const count =
    options.count === undefined ? Math.max(lengthsM.length, bearingsDeg.length) : countOf(options.count);
  const [lengthM] = lengthsM;
  if (lengthM === undefined) throw wrong('--length', 'is needed, such as --length 6m');
  if (lengthsM.some((each) => !(each > 0))) throw wrong('--length', 'must be more than zero');
  if (lengthsM.length !== 1 && lengthsM.length !== count) {
    throw wrong('--length', `needs one length, or ${count}, got ${lengthsM.length}`);
  }
  const spread = spreadOf(options, count);
  if (spread !== null && bearingsDeg.length > 0) throw wrong('--bearing', 'or --from and --to, not both');
  if (bearingsDeg.length !== 0 && bearingsDeg.length !== count) {
    throw wrong('--bearing', `needs ${count} bearings, one for each radial, got ${bearingsDeg.length}`);
  }
  return Array.from({ length: count }, (_, i) => ({
    lengthM: lengthsM[i] ?? lengthM,
    bearingDeg: (spread ?? bearingsDeg)[i] ?? null,
    route: null,
  }));
}

function countOf(text: string): number {
  const count = Number(text);
  if (Number.isInteger(count) && count >= 1 && count <= 1000) return count;
  throw wrong('--count', `needs a whole number from 1 to 1000, got "${text}"`);
}

function spreadOf({ from, to }: LayOptions, count: number): number[] | null {
  if (from === undefined && to === undefined) return null;
  if (from === undefined || to === undefined) throw wrong('--from', 'and --to go together');
  return bearingsBetween(bearingOf(from, '--from'), bearingOf(to, '--to', 360), count);
}

/** @param full - an angle that is no bearing, but may be said to close a circle */
function bearingOf(text: string, field: string, full?: number): number {
  const angleDeg = parseQuantity(text, 'angle', field);
  if ((angleDeg >= 0 && angleDeg < 360) || angleDeg === full) return angleDeg;
  throw wrong(field, `must be a bearing from true north, 0deg to below 360deg, got "${text}"`);
}

function wrong(field: string, message: string): UserError {
  return new UserError('lay-options', message, { kind: 'command-line', place: { field } });
}
