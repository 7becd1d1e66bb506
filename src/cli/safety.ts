import { join, resolve } from 'node:path';
import { type Command, Option } from 'commander';
import { parseQuantity } from '../core/quantity.ts';
import { quoted } from '../core/quoted.ts';
import type { FieldState, Radial, Reading } from '../core/record.ts';
import { type AssessOptions, assessSafety, possibleEfficiency } from '../core/safety/assess.ts';
import { CAUTION_JOBS, type CautionJob, cautionsFor } from '../core/safety/cautions.ts';
import { type DueInspection, dueInspections } from '../core/safety/inspections.ts';
import { LIMIT_SETS } from '../core/safety/limit-sets.ts';
import { findLimitSet } from '../core/safety/limits.ts';
import { findMode, MODES } from '../core/safety/modes.ts';
import { possiblePowerW, possibleShare } from '../core/safety/transmissions.ts';
import type { Site } from '../core/site.ts';
import { UserError } from '../core/user-error.ts';
import { readSite } from '../logbook/site-file.ts';
import { type Answer, printAnswer } from './answer.ts';
import type { Io } from './io.ts';
import { addLogbookOptions, type LogbookOptions } from './logbook-options.ts';
import { openOwnLogbook } from './own-logbook.ts';
import { bandAsked, placedAt } from './placed-at.ts';
import { safetyJson } from './safety-json.ts';
import { safetyText } from './safety-text.ts';

interface Options extends LogbookOptions {
  site?: string;
  limits?: string;
  band?: string;
  power?: string;
  mode?: string;
  onAir?: string;
  efficiency?: string;
  cautions?: readonly CautionJob[] | true;
}

/** `turfwire safety`: what transmitting asks of the garden. */
export function register(command: Command, io: Io): void {
  addLogbookOptions(command)
    .option(
      '--site <FILE>',
      'judge this site.json; the radials that lie then come from a logbook only if one is named',
    )
    .option('--limits <ID>', `limits to hold fields against: ${LIMIT_SETS.map(({ id }) => id).join(', ')}`)
    .option('--band <BAND>', 'only this band, such as 40m')
    .option('--power <POWER>', 'peak power in place of the site’s, such as 100W')
    .option('--mode <MODE>', `mode in place of the site’s: ${MODES.map(({ mode }) => mode).join(', ')}`)
    .option('--on-air <SHARE>', 'largest share of the averaging time spent sending, such as 0.5 or 50%')
    .option(
      '--efficiency <PERCENT>',
      'power radiated over power accepted, such as 80%; all of it if not given',
    )
    .addOption(
      new Option('--cautions [JOB...]', 'only print the cautions, all or those of some work').choices(
        CAUTION_JOBS,
      ),
    )
    .addHelpText(
      'after',
      '\nExample:\n  turfwire safety --site site.json --power 100W --mode cw --limits fcc-general',
    )
    .action(async (options: Options) => {
      if (options.cautions !== undefined) {
        printAnswer(io, cautionsAnswer(options.cautions), options.json === true);
        return;
      }
      const wanted = assessOptions(options);
      const { site, file, fieldState, planned, readings } = await situation(io, options);
      if (options.band !== undefined) requireBand(options.band, site);
      const assess = (state: FieldState | null) =>
        placedAt({ file }, () => assessSafety(site, { ...wanted, fieldState: state }));
      const due: readonly DueInspection[] | null =
        readings === null ? null : dueInspections(site.joints, readings, io.now().toISOString());
      const later =
        planned.length === 0
          ? null
          : {
              numbers: planned.map(({ number }) => number),
              assessment: assess(withMore(fieldState, planned)),
            };
      const json = safetyJson(assess(fieldState), due, later);
      printAnswer(io, { json, text: safetyText(json, site.units) }, options.json === true);
    });
}

/** The cautions by work, for whoever wants all of them again. */
function cautionsAnswer(wanted: readonly CautionJob[] | true): Answer {
  const jobs = wanted === true ? CAUTION_JOBS : wanted;
  return {
    json: { cautions: Object.fromEntries(jobs.map((job) => [job, cautionsFor(job)])) },
    text: jobs
      .map((job) => [`${job}:`, ...cautionsFor(job).map((caution) => `- ${caution}`)].join('\n'))
      .join('\n\n'),
  };
}

/** What the options say, each checked under its own name. */
function assessOptions({ limits, band, power, mode, onAir, efficiency }: Options): Partial<AssessOptions> {
  const given = <T>(text: string | undefined, read: (text: string) => T): T | null =>
    text === undefined ? null : read(text);
  return {
    limits: given(limits, (id) => findLimitSet(id, '--limits').id),
    choice: {
      band: band ?? null,
      peakPowerW: given(power, (text) => possiblePowerW(parseQuantity(text, 'power', '--power'), '--power')),
      mode: given(mode, (name) => findMode(name, '--mode').mode),
      onAirFraction: given(onAir, (text) => possibleShare(share(text, '--on-air'), '--on-air')),
    },
    efficiency:
      given(efficiency, (text) => possibleEfficiency(share(text, '--efficiency'), '--efficiency')) ?? 1,
  };
}

interface Situation {
  readonly site: Site;
  readonly file: string;
  readonly fieldState: FieldState | null;
  /** Radials of the newest plan that are not laid yet. */
  readonly planned: readonly Radial[];
  readonly readings: readonly Reading[] | null;
}

/** The site, and what the journal adds to it. */
async function situation(io: Io, options: Options): Promise<Situation> {
  const file = options.site === undefined ? null : resolve(io.cwd, options.site);
  const site = file === null ? null : await readSite(file);
  if (site !== null && file !== null && options.logbook === undefined) {
    return { site, file, fieldState: null, planned: [], readings: null };
  }
  const logbook = await openOwnLogbook(io, options);
  return {
    site: site ?? logbook.site,
    file: file ?? join(logbook.folder, 'site.json'),
    fieldState: logbook.fieldStates.at(-1) ?? null,
    planned: logbook.planned,
    readings: logbook.readings,
  };
}

function withMore(state: FieldState | null, more: readonly Radial[]): FieldState {
  const radials = [...(state?.radials ?? []), ...more];
  return { since: null, radials, wireM: radials.reduce((sum, { lengthM }) => sum + lengthM, 0) };
}

function requireBand(band: string, site: Site): void {
  bandAsked(band, site.region, site.bandEdges);
}

/** A share written as a fraction or in per cent. */
function share(text: string, field: string): number {
  const plain = Number(text);
  if (plain > 1 && plain <= 100) {
    const message = `needs a part of 1 or a percentage, got ${quoted(text)}; did you mean "${plain}%"?`;
    throw new UserError('share-without-percent', message, { place: { field } });
  }
  return text.trim() !== '' && Number.isFinite(plain) ? plain : parseQuantity(text, 'fraction', field);
}
