import { resolve } from 'node:path';
import type { Command } from 'commander';
import { fieldStateOfSite } from '../core/layout/field-state.ts';
import { type DrawnWire, drawLot, drawnRadials } from '../core/layout/lot-drawing.ts';
import { RAISED_M } from '../core/layout/raised.ts';
import type { Route } from '../core/layout/route.ts';
import { formatLength } from '../core/quantity.ts';
import type { Radial } from '../core/record.ts';
import type { Site } from '../core/site.ts';
import { UserError } from '../core/user-error.ts';
import { printAnswer } from './answer.ts';
import type { Io } from './io.ts';
import {
  addLoggingOptions,
  happening,
  type LoggingOptions,
  logbookFolder,
  withdrawText,
  writing,
} from './logbook-options.ts';
import { numbered, numbersText } from './numbers.ts';
import { openOwnLogbook } from './own-logbook.ts';
import { answerElevated } from './plan-elevated.ts';
import { answerOnGround, type PlannedAnswer } from './plan-on-ground.ts';
import type { PlanOptions } from './plan-request.ts';

interface Options extends PlanOptions, LoggingOptions {
  readonly site?: string;
  readonly svg?: string;
  readonly apply?: boolean;
}

const collect = (value: string, before: readonly string[] | undefined): string[] => [
  ...(before ?? []),
  value,
];
const list = (value: string): string[] => value.split(',');

export function register(command: Command, io: Io): void {
  addLoggingOptions(command)
    .option('--site <FILE>', 'plan for a site file, with no logbook')
    .option('--band <band>', 'a band that counts, instead of the site’s; may be repeated', collect)
    .option(
      '--stock <NxLENGTH>',
      'wire at hand, such as 2x25m, instead of the site’s; may be repeated',
      collect,
    )
    .option('--count <n>', 'this many radials instead of what the stock gives; with --length')
    .option('--length <length>', 'the most wire for each radial, such as 7m or 25ft; with --count')
    .option('--compare <NxLENGTH,…>', 'set other fields beside it, such as 8x12m,32x3m', list)
    .option('--elevation <angle,…>', 'elevations of the pattern (default: 10deg,25deg,45deg)', list)
    .option('--svg <file>', 'draw the lot to a file')
    .option('--apply', 'write the radials into the journal as planned; `lay --planned` logs them as laid')
    .addHelpText('after', '\nExample:\n  turfwire plan --site samples/site.json --stock 2x25m --svg lot.svg')
    .action(async (options: Options) => run(io, options));
}

async function run(io: Io, given: Options): Promise<void> {
  const source = await readSource(io, given);
  const { site, laid, options } = source;
  const raised = (site.antenna.baseHeightM ?? 0) >= RAISED_M && site.antenna.kind !== 'half-wave';
  const planned = raised ? answerElevated(site, options) : answerOnGround(site, laid, options);
  if (options.svg !== undefined) await writeDrawing(io, options.svg, source, planned);
  if (options.apply === true) await apply(io, options, planned.routes);
  printAnswer(io, planned.answer, options.json === true);
}

/** Where the plan is made: the site, the radials that lie there, and the field that is asked for outright. */
interface Source {
  readonly site: Site;
  readonly laid: readonly Radial[];
  readonly options: Options;
}

/**
 * A logbook knows what lies there. A site file alone may state a field: with wire at hand that field lies there
 * already, without any it is the field that is looked at.
 */
async function readSource(io: Io, options: Options): Promise<Source> {
  if (options.site === undefined) {
    const { site, fieldStates } = await openOwnLogbook(io, options);
    return { site, laid: fieldStates.at(-1)?.radials ?? [], options };
  }
  if (options.apply === true) {
    const message = '--apply writes into a logbook: leave --site out';
    throw new UserError('plan-apply-where', message, { kind: 'command-line' });
  }
  const { readSite } = await import('../logbook/site-file.ts');
  const site = await readSite(resolve(io.cwd, options.site));
  const stated = fieldStateOfSite(site);
  const asked = options.count !== undefined || options.length !== undefined;
  if (stated === null || asked) return { site, laid: [], options };
  if (site.stock.length > 0 || options.stock !== undefined) return { site, laid: stated.radials, options };
  const { count, lengthM } = site.radials ?? {};
  return { site, laid: [], options: { ...options, count: `${count}`, length: `${lengthM}m` } };
}

async function writeDrawing(io: Io, file: string, { site, laid }: Source, { routes, lot }: PlannedAnswer) {
  const { writeFile } = await import('node:fs/promises');
  const planned = routes.map(
    ({ points, lengthM, bearingDeg }): DrawnWire => ({
      points,
      state: 'planned',
      age: 0,
      label: `planned, ${formatLength(lengthM, site.units)} toward ${bearingDeg.toFixed(0)}°`,
    }),
  );
  const wires = [...drawnRadials(laid, site.units), ...planned];
  const drawing = drawLot(lot, wires, { units: site.units, title: site.name });
  const path = resolve(io.cwd, file);
  try {
    await writeFile(path, drawing);
  } catch (cause) {
    const { systemWords } = await import('../logbook/system-words.ts');
    const message = `cannot be written: ${systemWords(cause)}`;
    throw new UserError('plan-svg', message, { place: { file: path }, cause });
  }
  io.err(`turfwire: drew the lot to ${path}`);
}

/** Writes the chosen radials into the journal as planned. */
async function apply(io: Io, options: Options, routes: readonly Route[]): Promise<void> {
  const { appendEvents } = await import('../logbook/logbook.ts');
  const common = happening(io, options);
  const { events, rows } = await appendEvents(
    logbookFolder(io, options),
    (logbook) =>
      routes.map(({ points, lengthM, bearingDeg }, i) => ({
        ...common,
        event: 'plan' as const,
        number: logbook.nextRadial + i,
        lengthM,
        bearingDeg,
        route: points,
      })),
    writing(io),
  );
  const numbers = events.map(({ number }) => number);
  io.err(
    `turfwire: planned ${numbered('radial', numbers)}; log them when they are down: turfwire lay --planned ${numbersText(numbers)}`,
  );
  io.err(`turfwire: ${withdrawText(io, rows, options)}`);
}
