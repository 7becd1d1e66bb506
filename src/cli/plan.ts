import { join, resolve } from 'node:path';
import type { Command } from 'commander';
import { fieldStateOfSite } from '../core/layout/field-state.ts';
import { radialsHang } from '../core/layout/raised.ts';
import { UserError } from '../core/user-error.ts';
import type { Logbook } from '../logbook/logbook.ts';
import { SITE_FILE } from '../logbook/open-logbook.ts';
import { printAnswer } from './answer.ts';
import type { Io } from './io.ts';
import { addLoggingOptions, type LoggingOptions, logbookFolder } from './logbook-options.ts';
import { openOwnLogbook } from './own-logbook.ts';
import { applyPlan } from './plan-apply.ts';
import { writeDrawing } from './plan-drawing.ts';
import { answerElevated } from './plan-elevated.ts';
import { answerOnGround } from './plan-on-ground.ts';
import type { PlannedSite, PlanOptions } from './plan-options.ts';

interface Options extends PlanOptions, LoggingOptions {
  readonly site?: string;
  readonly svg?: string;
  readonly overwrite?: boolean;
}

const collect = (value: string, before: readonly string[] | undefined): string[] => [
  ...(before ?? []),
  value,
];
const list = (value: string): string[] => value.split(',');

/** `turfwire plan`: works out where wires go, and how many are worth it. */
export function register(command: Command, io: Io): void {
  addLoggingOptions(command)
    .option('--site <FILE>', 'plan for a site file, with no logbook')
    .option('--band <BAND>', 'a band that counts, instead of the site’s; may be repeated', collect)
    .option(
      '--stock <NxLENGTH>',
      'wire at hand, such as 2x25m, instead of the site’s; may be repeated',
      collect,
    )
    .option(
      '--count <N>',
      'this many radials instead of what the stock gives, with --length; of a raised base, so many a band, alone (default: what radials.count makes, else 2)',
    )
    .option(
      '--length <LENGTH>',
      'the most wire for each radial, such as 7m or 25ft, with --count; radials of a raised base are cut to resonance and take none',
    )
    .option('--compare <NxLENGTH,…>', 'set other fields beside it, such as 8x12m,32x3m', list)
    .option('--elevation <ANGLE,…>', 'elevations of the pattern (default: 10deg,25deg,45deg)', list)
    .option(
      '--allowance <LENGTH>',
      'how much longer than its route each radial is cut, to reach the plate and for the lug and the far end (default: 0.15m)',
    )
    .option('--svg <FILE>', 'draw the lot to a file; an earlier drawing of the lot is replaced')
    .option('--overwrite', 'let --svg replace any file')
    .option(
      '--apply',
      'write the radials into the journal as planned, in place of what an earlier plan left open; `lay --planned` logs them as laid',
    )
    .addHelpText('after', '\nExample:\n  turfwire plan --site samples/site.json --stock 2x25m --svg lot.svg')
    .action(async (options: Options) => run(io, options));
}

async function run(io: Io, given: Options): Promise<void> {
  const source = await readSource(io, given);
  const { site, options } = source;
  const planned = ofSiteFile(source.siteFile, () =>
    radialsHang(site.antenna) ? answerElevated(source, options) : answerOnGround(source, options),
  );
  if (options.svg !== undefined) {
    await writeDrawing(io, options.svg, options.overwrite === true, source, planned);
  }
  if (options.apply === true) {
    if (planned.routes.length > 0) await applyPlan(io, options, planned.routes);
    else io.err('turfwire: no wire is planned, so nothing is written into the journal');
  }
  printAnswer(io, planned.answer, options.json === true);
}

/** Names the file of the site in what it is asked to mend. */
function ofSiteFile<T>(file: string, work: () => T): T {
  try {
    return work();
  } catch (error) {
    if (!(error instanceof UserError)) throw error;
    const { code, message, place, kind } = error;
    if (kind !== 'input' || place.field?.startsWith('--') === true) throw error;
    throw new UserError(code, message, { place: { file, ...place }, cause: error });
  }
}

/** Where the plan is made, and the field that is asked for outright. */
interface Source extends PlannedSite {
  readonly options: Options;
  readonly siteFile: string;
}

/**
 * A logbook knows what lies there. A site file alone may state a field: with wire at hand that field lies there
 * already, without any it is the field that is looked at.
 */
async function readSource(io: Io, options: Options): Promise<Source> {
  if (options.site === undefined) {
    const logbook = await openOwnLogbook(io, options);
    const { site, fieldStates, nextRadial, planned: openPlan } = logbook;
    const laid = fieldStates.at(-1)?.radials ?? [];
    const measured = await measuredAdvice(io, logbook, options);
    const siteFile = join(logbookFolder(io, options), SITE_FILE);
    return { site, siteFile, laid, nextRadial, openPlan, cutFromStock: laid, measured, options };
  }
  if (options.apply === true) {
    const message = '--apply writes into a logbook: leave --site out';
    throw new UserError('plan-apply-where', message, { kind: 'command-line' });
  }
  const { readSite } = await import('../logbook/site-file.ts');
  const siteFile = resolve(io.cwd, options.site);
  const site = await readSite(siteFile);
  const alone = {
    site,
    siteFile,
    laid: [],
    nextRadial: 1,
    openPlan: [],
    cutFromStock: [],
    measured: null,
    options,
  };
  const stated = fieldStateOfSite(site);
  const asked = options.count !== undefined || options.length !== undefined;
  if (stated === null) return alone;
  if (radialsHang(site.antenna)) return { ...alone, laid: stated.radials };
  if (asked) return alone;
  if (site.stock.length > 0 || options.stock !== undefined) return { ...alone, laid: stated.radials };
  const { count, lengthM } = site.radials ?? {};
  return { ...alone, options: { ...options, count: `${count}`, length: `${lengthM}m` } };
}

/** What `progress` says of the first measured band; null where it has nothing to say. */
async function measuredAdvice(io: Io, logbook: Logbook, { logbook: folder }: Options) {
  if (logbook.visits.length === 0) return null;
  const { findProgress } = await import('./progress.ts');
  try {
    const flags = folder === undefined ? {} : { logbook: folder };
    const { states, progress } = await findProgress(io, logbook, flags);
    return states.length === 0 ? null : progress;
  } catch (error) {
    // A plan can be made without; `progress` itself says what ails it.
    if (error instanceof UserError) return null;
    throw error;
  }
}
