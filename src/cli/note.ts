import { readFile } from 'node:fs/promises';
import { resolve } from 'node:path';
import type { Command } from 'commander';
import type { JournalEvent, ReadingEvent } from '../core/journal-event.ts';
import { type Dimension, parseQuantity } from '../core/quantity.ts';
import type { ReadingKind } from '../core/record.ts';
import { UserError } from '../core/user-error.ts';
import { parseFieldReadings } from '../formats/field-readings.ts';
import { appendEvents, type Logbook, openLogbook } from '../logbook/logbook.ts';
import { systemWords } from '../logbook/system-words.ts';
import { parseTime } from '../logbook/time.ts';
import { printAnswer } from './answer.ts';
import { eventText } from './event-text.ts';
import type { Io } from './io.ts';
import {
  addLoggingOptions,
  happening,
  type LoggingOptions,
  logbookFolder,
  parseNumbers,
  writing,
} from './logbook-options.ts';
import { oddities } from './note-oddities.ts';

interface NoteOptions extends LoggingOptions {
  readonly place?: string;
  readonly power?: string;
  readonly from?: string;
}

type Common = ReturnType<typeof happening>;
type Maker = (logbook: Logbook) => readonly JournalEvent[];
type Read = (words: string[], common: Common, options: NoteOptions) => Maker | Promise<Maker>;

/** `turfwire note`: logs what was read off a meter, the ground or the sky, and remarks. */
export function register(command: Command, io: Io): void {
  const note = (usage: string, summary: string, read: Read) =>
    addLoggingOptions(command.command(usage).description(summary)).action(async (...given: unknown[]) => {
      const [options, { args }] = given.slice(-2) as [NoteOptions, Command];
      await log(io, options, await read(args, happening(io, options), options));
    });

  note('moisture <PERCENT>', 'soil moisture, such as 23%', ([percent = ''], common) =>
    one(common, 'soil-moisture', { value: within('PERCENT', percent, 'fraction', 0, 1) }),
  );
  note('rain <DEPTH>', 'rain since the last note, such as 12mm', ([depth = ''], common) =>
    one(common, 'rain', { value: within('DEPTH', depth, 'length', 0, 10) }),
  );
  takesNegative(
    note('temperature <DEGREES>', 'air temperature, such as 8C or -3C', ([degrees = ''], common) =>
      one(common, 'temperature', { value: within('DEGREES', degrees, 'temperature', -90, 70) }),
    ),
  );
  takesNegative(
    note(
      'field [LEVEL]',
      'field strength, such as -12.5dB, or a file of readings',
      (words, common, options) =>
        options.from === undefined ? fieldReading(words, common, options) : readingsFile(io, options.from),
    ),
  )
    .option('--place <NAME>', 'where it was read; the same place lets readings be compared')
    .option('--power <POWER>', 'transmitter power behind it, such as 100W')
    .option('--from <FILE>', 'CSV with the columns time,place,level_db,power_w');
  note(
    'joint <NAME> <RESISTANCE>',
    'resistance of a joint, such as 12mohm',
    ([name = '', ohms = ''], common) =>
      one(common, 'joint-resistance', {
        subject: name,
        value: within('RESISTANCE', ohms, 'resistance', 0, 1e6),
      }),
  );
  note(
    'current <RADIAL> <CURRENT>',
    'current in one radial, such as 120mA',
    ([radial = '', current = ''], common, { power }) =>
      one(common, 'radial-current', {
        subject: String(parseNumbers([radial], 'RADIAL')[0]),
        value: within('CURRENT', current, 'current', 0, 100),
        powerW: powerOf(power),
      }),
  ).option('--power <POWER>', 'transmitter power behind it, such as 100W');
  note('inspection <JOINT> <TEXT>', 'what you saw at a joint', ([joint = '', seen = ''], common) =>
    one({ ...common, text: remark(seen, common) }, 'inspection', { subject: joint }),
  );
  note('repair <JOINT> <TEXT>', 'what you did to a joint or a part', ([joint = '', done = ''], common) =>
    one({ ...common, text: remark(done, common) }, 'repair', { subject: joint }),
  );
  note('text <TEXT>', 'a remark', ([text = ''], common) =>
    one({ ...common, text: remark(text, common) }, 'text', {}),
  );
  note(
    'baseline <VISITS> <yes|no>',
    'whether visits may stand for a healthy antenna',
    ([visits = '', word = ''], common) => baselines(visits, word, common),
  );
  command.addHelpText('after', '\nExample:\n  turfwire note field -12.5dB --place bench --power 100W');
}

async function log(io: Io, options: NoteOptions, make: Maker): Promise<void> {
  const folder = logbookFolder(io, options);
  const events = await appendEvents(folder, make, writing(io));
  const logbook = await openLogbook(folder);
  for (const odd of new Set(events.flatMap((event) => oddities(event, logbook)))) io.err(`turfwire: ${odd}`);
  const { units } = logbook.site;
  const lines = events.map((event) => `Noted: ${eventText(event, units)} (${event.time}).`);
  printAnswer(
    io,
    {
      json: { noted: events },
      text: lines.join('\n') || 'Nothing was noted: every reading is there already.',
    },
    options.json === true,
  );
}

/** A single reading. */
function one(
  common: Common,
  event: ReadingKind,
  reading: Partial<Pick<ReadingEvent, 'value' | 'subject' | 'powerW'>>,
): Maker {
  return () => [{ ...common, event, value: null, subject: null, powerW: null, ...reading }];
}

function fieldReading([level]: string[], common: Common, { place, power }: NoteOptions): Maker {
  if (level === undefined) throw wrong('LEVEL', 'is needed, such as -12.5dB, or --from with a file');
  if (place === undefined) throw wrong('--place', 'is needed: levels of two places cannot be compared');
  return one(common, 'field-strength', {
    value: within('LEVEL', level, 'level', -300, 300),
    subject: place,
    powerW: powerOf(power),
  });
}

/** Readings of a file, without those that the logbook has already. */
async function readingsFile(io: Io, file: string): Promise<Maker> {
  const path = resolve(io.cwd, file);
  const text = await readFile(path, 'utf8').catch((cause: NodeJS.ErrnoException) => {
    throw new UserError('file-unreadable', `cannot be read: ${systemWords(cause)}`, {
      place: { file: path },
      cause,
    });
  });
  const readings = parseFieldReadings(text, path, (time) => parseTime(time, io.now(), 'time'));
  return (logbook) => {
    const key = ({ time, subject, value }: Pick<ReadingEvent, 'time' | 'subject' | 'value'>) =>
      JSON.stringify([Date.parse(time), subject, value]);
    const known = new Set(logbook.readings.filter(({ kind }) => kind === 'field-strength').map(key));
    return readings.filter((reading) => !known.has(key(reading)));
  };
}

function baselines(visitTexts: string, word: string, common: Common): Maker {
  if (word !== 'yes' && word !== 'no') throw wrong('yes|no', `must be yes or no, got "${word}"`);
  const wanted = parseNumbers([visitTexts], 'VISITS');
  return ({ visits }) => {
    const missing = wanted.find((number) => !visits.some(({ visit }) => visit === number));
    if (missing !== undefined) throw new UserError('visit-unknown', `there is no visit ${missing}`);
    return wanted.map((visit) => ({ ...common, event: 'baseline', visit, baseline: word === 'yes' }));
  };
}

function powerOf(text: string | undefined): number | null {
  if (text === undefined) return null;
  const powerW = parseQuantity(text, 'power', '--power');
  if (powerW > 0) return powerW;
  throw wrong('--power', `must be more than zero, got "${text}"`);
}

/** A quantity of the command line that must lie within what is possible. */
function within(field: string, text: string, dimension: Dimension, least: number, most: number): number {
  const value = parseQuantity(text, dimension, field);
  if (value >= least && value <= most) return value;
  throw wrong(field, `cannot be ${text}`);
}

/** The words of a note, with those of `--text` after them. */
function remark(words: string, { text }: Common): string {
  return text === '' ? words : `${words} (${text})`;
}

/**
 * Lets a quantity below zero stand without more ado: to the parser of the command line `-12.5dB` looks like an
 * option, so unknown options come through as words, and what is none of a quantity is refused here.
 */
function takesNegative(command: Command): Command {
  return command.allowUnknownOption().hook('preAction', (_, self) => {
    const stray = self.args.find((word) => /^-(?![\d.])/u.test(word));
    if (stray !== undefined) self.error(`error: unknown option '${stray}'`);
  });
}

function wrong(field: string, message: string): UserError {
  return new UserError('note-options', message, { kind: 'command-line', place: { field } });
}
