import type { Command } from 'commander';
import { fieldStateAt, requireFieldConsistent } from '../core/layout/field-state.ts';
import { appendEvents } from '../logbook/logbook.ts';
import { printAnswer } from './answer.ts';
import type { Io } from './io.ts';
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

/** `turfwire lift`: logs radials that were taken up again. */
export function register(command: Command, io: Io): void {
  addLoggingOptions(command)
    .argument('<NUMBERS...>', 'the radials, such as 5-8 or 3,7')
    .addHelpText('after', '\nExample:\n  turfwire lift 5-8 --text "in the way of the new path"')
    .action(async (texts: string[], options: LoggingOptions) => {
      const folder = logbookFolder(io, options);
      const common = happening(io, options);
      const numbers = parseNumbers(texts, 'NUMBERS');
      const events = numbers.map((number) => ({ ...common, event: 'lift' as const, number }));
      const { rows } = await appendEvents(
        folder,
        (logbook) => {
          requireFieldConsistent(logbook.events, [...logbook.events, ...events]);
          return events;
        },
        writing(io),
      );
      const logbook = await openOwnLogbook(io, options);
      tellEarly(io, logbook, common.time);
      const state = fieldStateAt(logbook.fieldStates, common.time);
      printAnswer(
        io,
        {
          json: {
            lifted: numbers,
            rows,
            fieldState: { since: state.since, radials: state.radials.length, wireM: state.wireM },
          },
          text: `Logged as lifted: ${numbered('radial', numbers)}; ${fieldText(logbook, common.time)}.\n${withdrawText(io, rows, options)}`,
        },
        options.json === true,
      );
    });
}
