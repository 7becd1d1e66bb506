import { resolve } from 'node:path';
import type { Command } from 'commander';
import { formatLength } from '../core/quantity.ts';
import type { FieldState } from '../core/record.ts';
import type { Site } from '../core/site.ts';
import { UserError } from '../core/user-error.ts';
import { isoWithZone, parseTime } from '../logbook/time.ts';
import type { WriteOptions } from '../logbook/write-logbook.ts';
import type { Io } from './io.ts';

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

/**
 * Numbers as people write them: `5-8`, `5,7`, `5-8,12`.
 * @throws UserError `numbers-unreadable`
 */
export function parseNumbers(texts: readonly string[], field: string): number[] {
  const numbers = new Set<number>();
  for (const part of texts.flatMap((text) => text.split(',')).map((text) => text.trim())) {
    const [, from = '', to = from] = /^(\d{1,6})(?:-(\d{1,6}))?$/u.exec(part) ?? [];
    if (from === '' || Number(to) < Number(from) || Number(from) < 1) {
      throw new UserError('numbers-unreadable', `needs numbers such as 5-8 or 5,7, got "${part}"`, {
        kind: 'command-line',
        place: { field },
      });
    }
    for (let number = Number(from); number <= Number(to); number++) numbers.add(number);
  }
  return [...numbers];
}

/** Numbers for people: `1-4, 7`. */
export function numbersText(numbers: readonly number[]): string {
  const runs: [from: number, to: number][] = [];
  for (const number of numbers) {
    const last = runs.at(-1);
    if (last !== undefined && number === last[1] + 1) last[1] = number;
    else runs.push([number, number]);
  }
  return runs.map(([from, to]) => (from === to ? `${from}` : `${from}-${to}`)).join(', ');
}

/** `the field now has 8 radials, 48.0 m of wire` */
export function fieldText({ radials, wireM }: FieldState, site: Site): string {
  const wires = radials.length === 1 ? '1 radial' : `${radials.length} radials`;
  return `the field has ${wires}, ${formatLength(wireM, site.units)} of wire`;
}
