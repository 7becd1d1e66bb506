import type { Command } from 'commander';
import { fieldStateAt, replayField, requireFieldConsistent } from '../core/layout/field-state.ts';
import { UserError } from '../core/user-error.ts';
import { appendEvents, type Logbook } from '../logbook/logbook.ts';
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
          requireLying(logbook, numbers, common.time);
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

/** @throws UserError `field-contradiction` for a radial that cannot be lifted, because it does not lie there */
function requireLying({ events }: Logbook, wanted: readonly number[], time: string): void {
  const { radials } = fieldStateAt(replayField(events).states, time);
  const lying = radials.map(({ number }) => number);
  const missing = wanted.filter((number) => !lying.includes(number));
  if (missing.length === 0) return;
  const what = `${numbered('radial', missing)} ${missing.length === 1 ? 'does' : 'do'} not lie there at ${time}`;
  const there =
    lying.length === 0
      ? 'no radial is logged as laid by then'
      : `${numbered('radial', lying)} ${lying.length === 1 ? 'does' : 'do'}`;
  throw new UserError('field-contradiction', `${what}: ${there}`);
}
