import type { Command } from 'commander';
import { appendEvents } from '../logbook/logbook.ts';
import { printAnswer } from './answer.ts';
import { eventText } from './event-text.ts';
import type { Io } from './io.ts';
import {
  addLoggingOptions,
  happening,
  type LoggingOptions,
  logbookFolder,
  tellEarly,
  withdrawText,
  writing,
} from './logbook-options.ts';
import {
  baselines,
  type Common,
  fieldReading,
  type Maker,
  one,
  powerOf,
  readingsFile,
  remark,
  withdrawal,
  within,
} from './note-events.ts';
import { oddities } from './note-oddities.ts';
import { parseNumbers } from './numbers.ts';
import { openOwnLogbook } from './own-logbook.ts';
import { mixedKinds, withdrawnRows, withdrawnText } from './withdrawn-rows.ts';

interface NoteOptions extends LoggingOptions {
  readonly place?: string;
  readonly power?: string;
  readonly band?: string;
  readonly from?: string;
}

type Read = (words: string[], common: Common, options: NoteOptions) => Maker | Promise<Maker>;

/** `turfwire note`: logs what was read off a meter, the ground or the sky, and remarks. */
export function register(command: Command, io: Io): void {
  const note = (usage: string, summary: string, read: Read) =>
    takesNegative(addLoggingOptions(command.command(usage).description(summary))).action(
      async (...given: unknown[]) => {
        const [options, { args }] = given.slice(-2) as [NoteOptions, Command];
        await log(io, options, await read(args, happening(io, options), options));
      },
    );

  note('moisture <PERCENT>', 'soil moisture, such as 23%', ([percent = ''], common) =>
    one(common, 'soil-moisture', { value: within('PERCENT', percent, 'fraction', '0%', '100%') }),
  );
  note('rain <DEPTH>', 'rain since the last note, such as 12mm or 0.5in', ([depth = ''], common) =>
    one(common, 'rain', { value: within('DEPTH', depth, 'length', '0mm', '10m', '12mm or 0.5in') }),
  );
  note('temperature <DEGREES>', 'air temperature, such as 8C, -3C or 46F', ([degrees = ''], common) =>
    one(common, 'temperature', { value: within('DEGREES', degrees, 'temperature', '-90C', '70C') }),
  );
  note('field [LEVEL]', 'field strength, such as -12.5dB, or a file of readings', (words, common, options) =>
    options.from === undefined ? fieldReading(words, common, options) : readingsFile(io, options.from),
  )
    .option('--place <NAME>', 'where it was read; the same place lets readings be compared')
    .option('--power <POWER>', 'transmitter power behind it, such as 100W')
    .option('--band <NAME>', 'band on which it was read, such as 40m')
    .option(
      '--from <FILE>',
      'CSV with the columns time,place,level_db,power_w,band; the last two may be left out',
    );
  note(
    'joint <NAME> <RESISTANCE>',
    'resistance of a joint, such as 12mohm',
    ([name = '', ohms = ''], common) =>
      one(common, 'joint-resistance', {
        subject: name,
        value: within('RESISTANCE', ohms, 'resistance', '0ohm', '1000kohm', '12mohm'),
      }),
  );
  note(
    'current <RADIAL> <CURRENT>',
    'current in one radial, such as 120mA',
    ([radial = '', current = ''], common, { power }) =>
      one(common, 'radial-current', {
        subject: String(parseNumbers([radial], 'RADIAL')[0]),
        value: within('CURRENT', current, 'current', '0A', '100A'),
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
    ([visits = '', word = ''], common, options) => baselines(visits, word, common, options),
  );
  note(
    'withdraw <ROWS> <WHY>',
    'rows that were logged by mistake, by the numbers that history shows, such as 12-15; a withdrawal too, which undoes it',
    ([rows = '', why = ''], common) => withdrawal(rows, { ...common, text: remark(why, common) }),
  );
  command.addHelpText(
    'after',
    '\nExample:\n  turfwire note field -12.5dB --place bench --power 100W --band 40m',
  );
}

async function log(io: Io, options: NoteOptions, make: Maker): Promise<void> {
  const folder = logbookFolder(io, options);
  const { events, rows } = await appendEvents(folder, make, writing(io));
  const logbook = await openOwnLogbook(io, options);
  for (const { time } of events.slice(0, 1)) tellEarly(io, logbook, time);
  for (const odd of new Set(events.flatMap((event) => oddities(event, logbook)))) io.err(`turfwire: ${odd}`);
  const withdrawn = withdrawnRows(events, logbook);
  const mixed = mixedKinds(withdrawn);
  if (mixed !== null) io.err(`turfwire: ${mixed}`);
  const { units } = logbook.site;
  const lines = events.map(
    (event, i) => `Noted as row ${rows[i]}: ${eventText(event, units)} (${event.time}).`,
  );
  printAnswer(
    io,
    {
      json: { noted: events, rows, withdrawn },
      text:
        [
          ...lines,
          ...withdrawn.map(withdrawnText),
          ...(withdrawn.length === 0 ? [] : [withdrawText(io, rows, options)]),
        ].join('\n') || 'Nothing was noted: every reading is there already.',
    },
    options.json === true,
  );
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
