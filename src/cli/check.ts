import type { Command } from 'commander';
import { plural } from '../core/plural.ts';
import { describePlace, UserError } from '../core/user-error.ts';
import { checkLogbook } from '../logbook/logbook.ts';
import { printAnswer } from './answer.ts';
import { printAndFail } from './failure.ts';
import type { Io } from './io.ts';
import { addLogbookOptions, type LogbookOptions, logbookFolder } from './logbook-options.ts';
import { progressOn } from './progress-bar.ts';

/** `turfwire check`: verifies every row and every sweep of a logbook, and names what is damaged. */
export function register(command: Command, io: Io): void {
  addLogbookOptions(command)
    .addHelpText(
      'after',
      '\nNothing is repaired: what is named stays as it is. Exit code 4 says that something is damaged.' +
        '\n\nExample:\n  turfwire check --logbook field',
    )
    .action(async (options: LogbookOptions) => {
      const folder = logbookFolder(io, options);
      const bar = await progressOn(io, 'sweeps');
      const report = await checkLogbook(folder, bar.update).finally(bar.stop);
      const { rows, sweeps, siteError } = report;
      const looked = `${plural(rows, 'row')} and ${plural(sweeps, 'sweep')} checked`;
      const found = siteError === null ? report.damage : [...report.damage, siteError];
      const lines = found.map(({ place, message }) => describePlace(place) + message);
      const answer = {
        json: {
          rows,
          sweeps,
          damage: found.map(({ code, place, message }) => ({ code, ...place, message })),
        },
        text: lines.join('\n') || `Nothing is damaged: ${looked}, all as they were written.`,
      };
      const asJson = options.json === true;
      if (found.length === 0) return printAnswer(io, answer, asJson);
      const kind = report.damage.length === 0 ? (siteError?.kind ?? 'input') : 'logbook';
      const message = `${plural(found.length, 'finding')}; ${looked}, nothing was changed`;
      printAndFail(io, answer, asJson, new UserError('logbook-damaged', message, { kind }));
    });
}
