import { closeSync, openSync, writeSync } from 'node:fs';
import { resolve } from 'node:path';
import type { Command } from 'commander';
import type { ReferencePlane } from '../core/record.ts';
import { UserError } from '../core/user-error.ts';
import { systemWords } from '../formats/system-words.ts';
import type { Description } from '../instrument/description/description.ts';
import type { Connection } from '../instrument/open-instrument.ts';
import type { Logbook } from '../logbook/logbook.ts';
import type { Io } from './io.ts';
import type { LogbookOptions } from './logbook-options.ts';
import { proposal } from './pasteable.ts';

/** How to reach an instrument, as the command line has it. */
export interface InstrumentFlags {
  readonly port: string;
  readonly description?: string;
  readonly describe?: string;
  readonly baud?: string;
  readonly patience?: string;
  readonly keepRaw?: string;
}

/** What a connection needs beside the command line. */
export type ConnectionParts = Pick<Connection, 'signal' | 'connected' | 'antenna'>;

/** The flags of every command that talks to an instrument. */
export function addInstrumentOptions(command: Command): Command {
  return command
    .requiredOption(
      '--port <PORT>',
      'serial port of the instrument (turfwire ports lists them), or "simulated" with settings behind a colon',
    )
    .option('--description <NAME>', 'an instrument that answers in text lines: scpi, plain-lines')
    .option('--describe <FILE>', 'the same, by a description of your own (JSON)')
    .option('--baud <NUMBER>', 'speed of the port in baud (default: that of the description, or 115200)')
    .option('--patience <FACTOR>', 'wait this many times longer for every answer', '1')
    .option('--keep-raw <FILE>', 'append every byte received to a file');
}

/** A command line that measures with the same instrument into the same logbook, with other options. */
export type ProposeMeasure = (...options: string[]) => string;

/** How a command that talks to an instrument proposes to measure with it. */
export function proposeMeasureWith(io: Io, given: InstrumentFlags & LogbookOptions): ProposeMeasure {
  const { port, description, describe, baud } = given;
  const flags = { '--port': port, '--description': description, '--describe': describe, '--baud': baud };
  const words = Object.entries(flags).flatMap(([flag, value]) => (value === undefined ? [] : [flag, value]));
  return (...options) => proposal(io, ['measure', ...words, ...options], given);
}

/** The site's antenna for the simulator; loaded only when one measures it. */
export async function antennaOf(
  logbook: Logbook | null,
  plane: ReferencePlane,
): ReturnType<Connection['antenna']> {
  const { simulatedAntenna } = await import('../instrument/simulator/simulated-antenna.ts');
  return simulatedAntenna(logbook?.site ?? null, logbook?.fieldStates.at(-1)?.radials ?? [], plane);
}

/** A connection as the flags ask for it, and what has to be done after it. */
export async function connectionOf(
  io: Io,
  flags: InstrumentFlags,
  parts: ConnectionParts,
): Promise<{ connection: Connection; release: () => void }> {
  const keep = flags.keepRaw === undefined ? null : keepBytes(io, resolve(io.cwd, flags.keepRaw));
  const connection = {
    port: flags.port,
    description: await descriptionOf(io, flags),
    baud: flags.baud === undefined ? null : numberFlag('--baud', flags.baud, 1, 10_000_000),
    patience: numberFlag('--patience', flags.patience ?? '1', 0.01, 1000),
    tap: keep?.tap,
    ...parts,
  };
  return { connection, release: () => keep?.close() };
}

/** @throws UserError `flag-wrong`, of kind `command-line` */
export function numberFlag(flag: string, text: string, least: number, most: number, whole = false): number {
  const value = text.trim() === '' ? Number.NaN : Number(text);
  if (value >= least && value <= most && (!whole || Number.isInteger(value))) return value;
  const needed = `needs a ${whole ? 'whole ' : ''}number from ${least} to ${most}`;
  throw new UserError('flag-wrong', `${needed}, got "${text}"`, {
    kind: 'command-line',
    place: { field: flag },
  });
}

async function descriptionOf(io: Io, flags: InstrumentFlags): Promise<Description | null> {
  if (flags.description !== undefined && flags.describe !== undefined) {
    throw new UserError('flag-wrong', '--description or --describe, not both', { kind: 'command-line' });
  }
  if (flags.describe === undefined && flags.description === undefined) return null;
  const { readDescription, shippedDescription } = await import(
    '../instrument/description/read-description.ts'
  );
  return flags.describe === undefined
    ? await shippedDescription(flags.description as string)
    : await readDescription(resolve(io.cwd, flags.describe));
}

/** Written at once and in order, so that what arrived before a crash is there after it. */
function keepBytes(io: Io, path: string): { tap: (chunk: Uint8Array) => void; close: () => void } {
  const file = openFile(path);
  let failed = false;
  return {
    tap: (chunk) => {
      if (failed) return;
      try {
        writeSync(file, chunk);
      } catch (error) {
        // Keeping the bytes must never cost the sweep.
        failed = true;
        io.err(`turfwire: ${path}: no longer kept: ${systemWords(error)}`);
      }
    },
    close: () => closeSync(file),
  };
}

function openFile(path: string): number {
  try {
    return openSync(path, 'a');
  } catch (cause) {
    throw new UserError('raw-file', `cannot be opened for --keep-raw: ${systemWords(cause)}`, {
      place: { file: path },
      cause,
    });
  }
}
