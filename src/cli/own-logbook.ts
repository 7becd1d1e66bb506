import { plural } from '../formats/words.ts';
import type { Logbook } from '../logbook/logbook.ts';
import type { Io } from './io.ts';
import { type LogbookOptions, logbookFolder } from './logbook-options.ts';
import { proposal } from './pasteable.ts';

/** Opens the logbook of a command, and tells when something in it is not as it was written. */
export async function openOwnLogbook(io: Io, options: LogbookOptions): Promise<Logbook> {
  const { openLogbook } = await import('../logbook/logbook.ts');
  const logbook = await openLogbook(logbookFolder(io, options));
  tellDamage(io, logbook.problems.length, options);
  return io.units === undefined ? logbook : { ...logbook, site: { ...logbook.site, units: io.units } };
}

/** Says in one line that an answer rests on a damaged logbook; what is damaged is for `check` to tell. */
export function tellDamage(io: Io, found: number, options: LogbookOptions): void {
  if (found === 0) return;
  const how = proposal(io, ['check'], options);
  io.err(
    `turfwire: not all of this logbook is as it was written (${plural(found, 'finding')}): \`${how}\` says what`,
  );
}
