import { isAbsolute } from 'node:path';
import type { PageData, Part } from '../../formats/page-data.ts';
import type { Io } from '../io.ts';
import type { LogbookOptions } from '../logbook-options.ts';
import { pasteable } from '../pasteable.ts';

/** The parts of a page that name a command where they have no answer. */
export const PARTS = ['lot', 'plan', 'progress', 'comparisons', 'changes', 'safety'] as const;

/** Turns `turfwire plan --stock 2x25m`, or a command that is already as it is called, into what the user types for it. */
export type AsTyped = (command: string) => string;

/**
 * Commands as the user called this one, and with the logbook as they named it, unless that would tell whoever gets the
 * page how the folders of this computer are called.
 */
export function asTyped(io: Io, { logbook }: LogbookOptions): AsTyped {
  const where = logbook === undefined || isAbsolute(logbook) ? '' : ` ${pasteable(['--logbook', logbook])}`;
  return (command) => {
    const bare = command.startsWith(`${io.called} `)
      ? command.slice(io.called.length)
      : command.replace(/^turfwire/u, '');
    return `${io.called}${bare}${bare.startsWith(' help ') ? '' : where}`;
  };
}

/** The page with every command that it proposes as it is typed. */
export function withCommands(data: PageData, typed: AsTyped): PageData {
  const parts = PARTS.map((name) => [name, partWith(data[name], typed)]);
  const { progress } = data;
  const told = progress.data?.map((answer) => ({
    ...answer,
    reversal: answer.reversal?.map((line) => (line.startsWith('#') ? line : typed(line))) ?? null,
  }));
  return {
    ...data,
    ...Object.fromEntries(parts),
    ...(told === undefined ? {} : { progress: { data: told, missing: null } }),
  };
}

function partWith(part: Part<unknown>, typed: AsTyped): Part<unknown> {
  const { missing } = part;
  return missing === null ? part : { data: null, missing: { ...missing, command: typed(missing.command) } };
}
