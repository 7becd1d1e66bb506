import { resolve } from 'node:path';
import type { Command } from 'commander';
import { parseQuantity } from '../core/quantity.ts';
import type { FieldState, Reading } from '../core/record.ts';
import { assessSafety } from '../core/safety/assess.ts';
import { type DueInspection, dueInspections } from '../core/safety/inspections.ts';
import { LIMIT_SETS } from '../core/safety/limit-sets.ts';
import { MODES } from '../core/safety/modes.ts';
import type { Site } from '../core/site.ts';
import { openLogbook } from '../logbook/logbook.ts';
import { readSite } from '../logbook/site-file.ts';
import { printAnswer } from './answer.ts';
import type { Io } from './io.ts';
import { addLogbookOptions, type LogbookOptions, logbookFolder } from './logbook-options.ts';
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
    .addHelpText(
      'after',
      '\nExample:\n  turfwire safety --site site.json --power 100W --mode cw --limits fcc-general',
    )
    .action(async (options: Options) => {
      const { site, fieldState, readings } = await situation(io, options);
      const assessment = assessSafety(site, {
        fieldState,
        limits: options.limits ?? null,
        choice: {
          band: options.band ?? null,
          peakPowerW: options.power === undefined ? null : parseQuantity(options.power, 'power', '--power'),
          mode: options.mode ?? null,
          onAirFraction: options.onAir === undefined ? null : share(options.onAir, '--on-air'),
        },
        efficiency: options.efficiency === undefined ? 1 : share(options.efficiency, '--efficiency'),
      });
      const due: readonly DueInspection[] | null =
        readings === null ? null : dueInspections(site.joints, readings, io.now().toISOString());
      printAnswer(
        io,
        { json: safetyJson(assessment, due), text: safetyText(assessment, due, site.units) },
        options.json === true,
      );
    });
}

/** The site, and what the journal adds to it. */
async function situation(
  io: Io,
  options: Options,
): Promise<{ site: Site; fieldState: FieldState | null; readings: readonly Reading[] | null }> {
  const site = options.site === undefined ? null : await readSite(resolve(io.cwd, options.site));
  if (site !== null && options.logbook === undefined) return { site, fieldState: null, readings: null };
  const logbook = await openLogbook(logbookFolder(io, options));
  return {
    site: site ?? logbook.site,
    fieldState: logbook.fieldStates.at(-1) ?? null,
    readings: logbook.readings,
  };
}

/** A share written as a fraction or in per cent. */
function share(text: string, field: string): number {
  const plain = Number(text);
  return text.trim() !== '' && Number.isFinite(plain) ? plain : parseQuantity(text, 'fraction', field);
}
