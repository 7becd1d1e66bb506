import { readFile } from 'node:fs/promises';
import { resolve } from 'node:path';
import { fieldStateAt } from '../core/layout/field-state.ts';
import type { BeforeAfter } from '../core/proof/pair.ts';
import {
  type StrengthSides,
  strengthOf,
  strengthOfFields,
  type TimedStrength,
} from '../core/proof/strength-sides.ts';
import type { Site } from '../core/site.ts';
import { UserError } from '../core/user-error.ts';
import { parseFieldReadings } from '../formats/field-readings.ts';
import { systemWords } from '../formats/system-words.ts';
import type { Logbook } from '../logbook/logbook.ts';
import { parseTime } from '../logbook/time.ts';
import type { CompareFlags } from './compare.ts';
import { bandName } from './compared-bands.ts';
import type { Io } from './io.ts';
import type { LogbookVisit } from './logbook-visits.ts';

/** Levels beside loose sweep files: a file of readings, parted at the time when the wires were laid. */
export async function looseStrength(
  io: Io,
  flags: CompareFlags,
  site: Site | null,
): Promise<StrengthSides | null> {
  if (flags.field === undefined) return null;
  if (flags.laidAt === undefined) {
    throw new UserError(
      'laid-at-needed',
      'needs --laid-at TIME, which divides the levels into before and after',
      {
        kind: 'command-line',
        place: { field: '--field' },
      },
    );
  }
  const laid = Date.parse(parseTime(flags.laidAt, io.now(), '--laid-at'));
  const readings = await readingsOfFile(io, flags.field, (band) => bandName(band, flags, site));
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
    ...(flags.field === undefined
      ? []
      : await readingsOfFile(io, flags.field, (band) => bandName(band, flags, logbook.site))),
  ];
  return strengthOfFields(readings, (time) => fieldStateAt(logbook.fieldStates, time), {
    before: sides.before.map(({ state }) => state),
    after: sides.after.map(({ state }) => state),
  });
}

async function readingsOfFile(
  io: Io,
  file: string,
  checkBand: (text: string) => string,
): Promise<TimedStrength[]> {
  const path = resolve(io.cwd, file);
  const text = await readFile(path, 'utf8').catch((cause: NodeJS.ErrnoException) => {
    throw new UserError('file-unreadable', `cannot be read: ${systemWords(cause)}`, {
      place: { file },
      cause,
    });
  });
  const events = parseFieldReadings(text, file, (time) => parseTime(time, io.now(), 'time'), checkBand);
  return strengthOf(events.map(({ event, ...reading }) => ({ kind: event, ...reading })));
}
