import { existsSync } from 'node:fs';
import { join, resolve } from 'node:path';
import type { Command } from 'commander';
import { UserError } from '../core/user-error.ts';
import { listed } from '../formats/words.ts';
import { createLogbook, JOURNAL_FILE, openLogbook, SITE_FILE } from '../logbook/logbook.ts';
import { parseSite } from '../logbook/site-file.ts';
import { parseTime } from '../logbook/time.ts';
import { printAnswer } from './answer.ts';
import type { Io } from './io.ts';

interface BeginOptions {
  readonly name?: string;
  readonly kind: string;
  readonly height?: string;
  readonly diameter?: string;
  readonly band?: string[];
  readonly baseHeight?: string;
  readonly units?: string;
  readonly region?: string;
  readonly soil?: string;
  readonly feedline?: string;
  readonly feedlineLength?: string;
  readonly at?: string;
  readonly json?: boolean;
}

/** `turfwire begin`: makes a logbook. */
export function register(command: Command, io: Io): void {
  command
    .argument(
      '<FOLDER>',
      'where the logbook goes: a new or empty folder, or one with only your own site.json in it',
    )
    .option('--name <NAME>', 'what you call the site; not needed where your own site.json names it')
    .option('--kind <KIND>', 'quarter-wave, half-wave or other', 'quarter-wave')
    .option('--height <LENGTH>', 'of the element, such as 10.1m or 33ft')
    .option('--diameter <DIAMETER>', 'of the element, such as 25mm')
    .option('--band <BAND...>', 'bands it is for, such as 40m')
    .option('--base-height <LENGTH>', 'of the feed point above the ground')
    .option('--units <UNITS>', 'metric or imperial output')
    .option('--region <REGION>', 'ITU region: 1, 2 or 3')
    .option('--soil <NAME>', 'soil by name, such as average')
    .option('--feedline <TYPE>', 'cable between instrument and feed point, such as RG-58')
    .option('--feedline-length <LENGTH>', 'its length')
    .option('--at <TIME>', 'when it began, ISO 8601 with zone, such as 2026-03-01T10:15Z (default: now)')
    .option('--json', 'print one JSON document')
    .addHelpText(
      'after',
      '\nExample:\n  turfwire begin field --name "Lakeside plot" --height 10.1m --diameter 25mm --band 40m',
    )
    .action(async (folder: string, options: BeginOptions, self: Command) => {
      const path = resolve(io.cwd, folder);
      const begun = options.at === undefined ? {} : { time: parseTime(options.at, io.now()) };
      const isThere = (name: string) => existsSync(join(path, name));
      if (!isThere(SITE_FILE) && !isThere(JOURNAL_FILE)) checkOptions(options);
      const { siteKept } = await createLogbook(path, siteOf(options), { now: io.now, ...begun });
      const { site } = await openLogbook(path);
      const notTaken = siteKept ? siteFlags(self) : [];
      printAnswer(
        io,
        {
          json: { folder: path, site: site.name, siteKept, notTaken },
          text:
            `Began the logbook of ${site.name} in ${path}. ` +
            (siteKept
              ? `Your site.json stays as it is${notTakenWords(notTaken)}.`
              : 'Its site.json is yours to edit.'),
        },
        options.json === true,
      );
    });
}

/** The options given that only a new `site.json` takes. */
function siteFlags(command: Command): string[] {
  return command.options
    .filter((option) => option.long !== '--at' && option.long !== '--json')
    .filter((option) => command.getOptionValueSource(option.attributeName()) === 'cli')
    .map(({ long }) => long as string);
}

function notTakenWords(flags: readonly string[]): string {
  return flags.length === 0
    ? ''
    : `, and ${listed(flags)} ${flags.length === 1 ? 'was' : 'were'} not taken: edit the file to change what it says`;
}

/** Looks at the options one by one, so that what is wrong is said of the option and not of a file nobody has seen. */
function checkOptions({ feedline, feedlineLength, ...others }: BeginOptions): void {
  if (others.name === undefined)
    throw wrong('--name', 'is needed, such as "Plot seven", where no site.json names it');
  const plain = { name: 'x', kind: 'other' };
  for (const [option, value] of Object.entries(others)) {
    if (option !== 'at' && option !== 'json') checkOption(flagOf(option), { ...plain, [option]: value });
  }
  if (feedline !== undefined) checkOption('--feedline', { ...plain, feedline, feedlineLength: '1m' });
  if (feedline === undefined && feedlineLength === undefined) return;
  if (feedlineLength === undefined)
    throw wrong('--feedline-length', 'is needed with --feedline, such as 12m');
  if (feedline === undefined) throw wrong('--feedline', 'is needed with --feedline-length, such as RG-58');
  checkOption('--feedline-length', { ...plain, feedline, feedlineLength });
}

function checkOption(flag: string, options: BeginOptions): void {
  try {
    parseSite(JSON.stringify(siteOf(options)), SITE_FILE);
  } catch (error) {
    if (!(error instanceof UserError)) throw error;
    throw wrong(flag, error.message);
  }
}

/** `baseHeight` as `--base-height`. */
function flagOf(option: string): string {
  return `--${option.replaceAll(/[A-Z]/gu, (letter) => `-${letter.toLowerCase()}`)}`;
}

function wrong(field: string, message: string): UserError {
  return new UserError('begin-options', message, { kind: 'command-line', place: { field } });
}

/** What was given, as `site.json` says it; what was not given stays out. */
function siteOf(options: BeginOptions): Record<string, unknown> {
  const { feedline, feedlineLength } = options;
  return {
    version: 1,
    name: options.name,
    units: options.units,
    region: options.region === undefined ? undefined : Number(options.region),
    antenna: {
      kind: options.kind,
      height: options.height,
      diameter: options.diameter,
      bands: options.band,
      baseHeight: options.baseHeight,
    },
    soil: options.soil,
    feedline:
      feedline === undefined && feedlineLength === undefined
        ? undefined
        : { type: feedline, length: feedlineLength },
  };
}
