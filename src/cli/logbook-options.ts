import { resolve } from 'node:path';
import type { Command } from 'commander';
import { formatLength } from '../core/quantity.ts';
import type { FieldState } from '../core/record.ts';
import type { Site } from '../core/site.ts';
import { plural } from '../formats/words.ts';
import { isoWithZone, parseTime } from '../logbook/time.ts';
import type { WriteOptions } from '../logbook/write-logbook.ts';
import type { Io } from './io.ts';
import { numbersText } from './numbers.ts';
import { proposal } from './pasteable.ts';

export interface LogbookOptions {
  readonly logbook?: string;
  readonly json?: boolean;
}

export interface LoggingOptions extends LogbookOptions {
  readonly at?: string;
  readonly text?: string;
}

/** `--logbook` and `--json`, for a command that reads a logbook. */
export function addLogbookOptions(command: Command): Command {
  return command
    .option('--logbook <DIR>', 'folder of the logbook (default: TURFWIRE_LOGBOOK, else the current folder)')
    .option('--json', 'print one JSON document');
}

/** {@link addLogbookOptions} and what a command that logs something takes. */
export function addLoggingOptions(command: Command): Command {
  return addLogbookOptions(command)
    .option('--at <TIME>', 'when it happened, ISO 8601 with zone, such as 2026-03-01T10:15Z (default: now)')
    .option('--text <REMARK>', 'a remark in your own words');
}

/** The folder of the logbook that a command works on. */
export function logbookFolder(io: Io, options: LogbookOptions): string {
  return resolve(io.cwd, options.logbook ?? (io.env['TURFWIRE_LOGBOOK'] || '.'));
}

/** When it happened, and in which words. */
export function happening(io: Io, options: LoggingOptions): { time: string; text: string } {
  const now = io.now();
  return {
    time: options.at === undefined ? isoWithZone(now) : parseTime(options.at, now),
    text: options.text ?? '',
  };
}

/** How a command writes: by the command's clock, telling on standard error. */
export function writing(io: Io): WriteOptions {
  return { now: io.now, tell: (message) => io.err(`turfwire: ${message}`) };
}

/** `the field has 8 radials, 48.0 m of wire` */
export function fieldText({ radials, wireM }: FieldState, site: Site): string {
  return `the field has ${plural(radials.length, 'radial')}, ${formatLength(wireM, site.units)} of wire`;
}

/** How to take back what was just logged, to be pasted. */
export function withdrawText(io: Io, rows: readonly number[], options: LogbookOptions): string {
  const how = proposal(io, ['note', 'withdraw', numbersText(rows), 'the reason'], options);
  return `If that was a slip, take it back: ${how}`;
}
