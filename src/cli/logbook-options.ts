import { resolve } from 'node:path';
import type { Command } from 'commander';
import { fieldStateAt } from '../core/layout/field-state.ts';
import { formatLength } from '../core/quantity.ts';
import type { FieldState } from '../core/record.ts';
import type { Site } from '../core/site.ts';
import { plural } from '../formats/words.ts';
import type { Logbook } from '../logbook/logbook.ts';
import { isoWithZone, parseTime } from '../logbook/time.ts';
import type { WriteOptions } from '../logbook/write-logbook.ts';
import type { Io } from './io.ts';
import { numbersText } from './numbers.ts';
import { proposal } from './pasteable.ts';

/** Options of every command that works on a logbook. */
export interface LogbookOptions {
  readonly logbook?: string;
  readonly json?: boolean;
}

/** Options of every command that logs an event. */
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

/** `8 radials, 48.0 m of wire` */
export function wiresText({ radials, wireM }: FieldState, { units }: Site): string {
  return `${plural(radials.length, 'radial')}, ${formatLength(wireM, units)} of wire`;
}

/** `the field has 8 radials, 48.0 m of wire`, or what it had at a time of the past and what it has now. */
export function fieldText({ fieldStates, site }: Logbook, time: string): string {
  const then = fieldStateAt(fieldStates, time);
  const now = fieldStates.at(-1) ?? then;
  const has = `has ${wiresText(now, site)}`;
  return then === now ? `the field ${has}` : `the field then had ${wiresText(then, site)}, and now ${has}`;
}

/** Says that something was logged for a time before the logbook began, which may be a slip of the year. */
export function tellEarly(io: Io, { events }: Logbook, time: string): void {
  const began = events.find(({ event }) => event === 'begin')?.time;
  if (began === undefined || Date.parse(time) >= Date.parse(began)) return;
  io.err(
    `turfwire: ${time} is before the logbook began (${began}): it is logged all the same, at its place in time`,
  );
}

const DAY_MS = 86_400_000;

/** Says that a visit is dated now, where whoever measures it has just logged something of an earlier day. */
export function tellBackdated(io: Io, { journal }: Logbook): void {
  const last = journal.entries.at(-1);
  if (last === undefined || last.event.event === 'begin') return;
  const { recorded, event } = last;
  const [now, logged] = [io.now(), Date.parse(recorded)];
  if (now.getTime() - logged > DAY_MS || logged - Date.parse(event.time) < DAY_MS) return;
  io.err(
    `turfwire: this visit is dated now, ${isoWithZone(now)}, though what was logged last is of ${event.time}: wires and weather ` +
      'count by their dates; `turfwire import` with --at takes sweeps of another day',
  );
}

/** How to take back what was just logged, to be pasted. */
export function withdrawText(io: Io, rows: readonly number[], options: LogbookOptions): string {
  const how = proposal(io, ['note', 'withdraw', numbersText(rows), 'the reason'], options);
  return `If that was a slip, take it back: ${how}`;
}
