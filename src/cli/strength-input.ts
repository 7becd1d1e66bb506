import { readFile } from 'node:fs/promises';
import { resolve } from 'node:path';
import { fieldStateAt } from '../core/layout/field-state.ts';
import type { BeforeAfter } from '../core/proof/pair.ts';
import type { StrengthReading } from '../core/proof/strength.ts';
import type { FieldState, Reading } from '../core/record.ts';
import { UserError } from '../core/user-error.ts';
import { parseFieldReadings } from '../formats/field-readings.ts';
import type { Logbook } from '../logbook/logbook.ts';
import { systemWords } from '../logbook/system-words.ts';
import { parseTime } from '../logbook/time.ts';
import type { CompareFlags } from './compare.ts';
import type { Io } from './io.ts';
import type { LogbookVisit } from './logbook-visits.ts';

/** Received levels of both sides. */
export type StrengthSides = BeforeAfter<readonly StrengthReading[]>;

interface TimedReading extends StrengthReading {
  readonly time: string;
}

/** Levels beside loose sweep files: a file of readings, parted at the time when the wires were laid. */
export async function looseStrength(io: Io, flags: CompareFlags): Promise<StrengthSides | null> {
  if (flags.field === undefined) return null;
  if (flags.laidAt === undefined) {
    throw new UserError(
      'laid-at-needed',
      'needs --laid-at TIME, which parts the levels into before and after',
      {
        kind: 'command-line',
        place: { field: '--field' },
      },
    );
  }
  const laid = Date.parse(parseTime(flags.laidAt, io.now(), '--laid-at'));
  const readings = await readingsOfFile(io, flags.field);
  return {
    before: readings.filter(({ time }) => Date.parse(time) < laid),
    after: readings.filter(({ time }) => Date.parse(time) >= laid),
  };
}

/** Levels of a logbook, with those of a file beside them, by the field state in which they were read. */
export async function logbookStrength(
  io: Io,
  flags: CompareFlags,
  logbook: Logbook,
  sides: BeforeAfter<readonly LogbookVisit[]>,
): Promise<StrengthSides | null> {
  const readings = [
    ...strengthOf(logbook.readings),
    ...(flags.field === undefined ? [] : await readingsOfFile(io, flags.field)),
  ];
  const inStates = (visits: readonly LogbookVisit[]): TimedReading[] => {
    const states = new Set<FieldState>(visits.map(({ state }) => state));
    return readings.filter(({ time }) => states.has(fieldStateAt(logbook.fieldStates, time)));
  };
  const [before, after] = [inStates(sides.before), inStates(sides.after)];
  const sameState = sides.before.some((visit) => sides.after.some(({ state }) => state === visit.state));
  return sameState || before.length === 0 || after.length === 0 ? null : { before, after };
}

/** The field-strength readings among a logbook's. */
export function strengthOf(readings: readonly Reading[]): TimedReading[] {
  return readings.flatMap(({ kind, time, subject, value, powerW }) =>
    kind === 'field-strength' && subject !== null && value !== null
      ? [{ time, place: subject, levelDb: value, powerW }]
      : [],
  );
}

async function readingsOfFile(io: Io, file: string): Promise<TimedReading[]> {
  const path = resolve(io.cwd, file);
  const text = await readFile(path, 'utf8').catch((cause: NodeJS.ErrnoException) => {
    throw new UserError('file-unreadable', `cannot be read: ${systemWords(cause)}`, {
      place: { file },
      cause,
    });
  });
  const events = parseFieldReadings(text, file, (time) => parseTime(time, io.now(), 'time'));
  return strengthOf(events.map(({ event, ...reading }) => ({ kind: event, ...reading })));
}
