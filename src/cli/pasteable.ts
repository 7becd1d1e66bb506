import type { Io } from './io.ts';
import type { LogbookOptions } from './logbook-options.ts';

/** Words as one line for a shell: whatever it would take apart or replace stands in quotes. */
export function pasteable(words: readonly string[]): string {
  return words
    .map((word) => (/^[\w@%+=:,./-]+$/u.test(word) ? word : `'${word.replaceAll("'", "'\\''")}'`))
    .join(' ');
}

/**
 * A command for the user to paste, as they called this one: `npx turfwire measure --logbook field --port /dev/ttyACM0`.
 *
 * @param words - the command with its arguments and options, each a word
 * @param given - the options of the command that proposes it: where a logbook was named, it is named again
 */
export function proposal(io: Io, words: readonly string[], given: LogbookOptions = {}): string {
  return commandOf(words, given).replace('turfwire', () => io.called);
}

/** {@link proposal} within a text that is kept, or made where nobody knows the caller: {@link asCalled} names it in the end. */
export function commandOf(words: readonly string[], given: LogbookOptions = {}): string {
  const where = given.logbook === undefined ? [] : ['--logbook', given.logbook];
  return `turfwire ${pasteable([...words, ...where])}`;
}

/** Text of a room that knows nothing of the caller: where it names a command in backquotes, it is named as it is called. */
export function asCalled(io: Io, text: string): string {
  return text.replaceAll(/`turfwire (?=[a-z])/gu, `\`${io.called} `);
}

/** The help: all that it has of commands is this program's own, wherever they stand. */
export function helpAsCalled(io: Io, text: string): string {
  return text.replaceAll(/\bturfwire (?=[a-z[])/gu, `${io.called} `);
}
