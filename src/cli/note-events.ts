import { readFile } from 'node:fs/promises';
import { resolve } from 'node:path';
import type { JournalEvent, ReadingEvent } from '../core/journal-event.ts';
import { type Dimension, parseQuantity } from '../core/quantity.ts';
import { quoted } from '../core/quoted.ts';
import type { ReadingKind } from '../core/record.ts';
import { UserError } from '../core/user-error.ts';
import { requireWithdrawable, withReplacedPlans } from '../core/withdrawal.ts';
import { parseFieldReadings } from '../formats/field-readings.ts';
import { systemWords } from '../formats/system-words.ts';
import type { Logbook } from '../logbook/logbook.ts';
import { parseTime } from '../logbook/time.ts';
import type { Io } from './io.ts';
import type { happening } from './logbook-options.ts';
import { parseNumbers } from './numbers.ts';
import { bandAsked } from './placed-at.ts';

/** When it happened, and a remark. */
export type Common = ReturnType<typeof happening>;

/** Makes the events of a note, of the logbook that they go into. */
export type Maker = (logbook: Logbook) => readonly JournalEvent[];

/** A single reading. */
export function one(
  common: Common,
  event: ReadingKind,
  reading: Partial<Pick<ReadingEvent, 'value' | 'subject' | 'powerW' | 'band'>>,
): Maker {
  return () => [{ ...common, event, value: null, subject: null, powerW: null, ...reading }];
}

/** A field-strength reading from the command line, or those of a file. */
export function fieldReading(
  [level]: string[],
  common: Common,
  { place, power, band }: { readonly place?: string; readonly power?: string; readonly band?: string },
): Maker {
  if (level === undefined) throw wrong('LEVEL', 'is needed, such as -12.5dB, or --from with a file');
  if (place === undefined) throw wrong('--place', 'is needed: levels of two places cannot be compared');
  const reading = {
    value: within('LEVEL', level, 'level', '-300dB', '300dB'),
    subject: place,
    powerW: powerOf(power),
  };
  return (logbook) => {
    const known = band === undefined ? {} : { band: bandOfSite(band, logbook) };
    return one(common, 'field-strength', { ...reading, ...known })(logbook);
  };
}

/** Readings of a file, without those that the logbook has already. */
export async function readingsFile(io: Io, file: string): Promise<Maker> {
  const path = resolve(io.cwd, file);
  const text = await readFile(path, 'utf8').catch((cause: NodeJS.ErrnoException) => {
    throw new UserError('file-unreadable', `cannot be read: ${systemWords(cause)}`, {
      place: { file: path },
      cause,
    });
  });
  return (logbook) => {
    const readings = parseFieldReadings(
      text,
      path,
      (time) => parseTime(time, io.now(), 'time'),
      (band) => bandOfSite(band, logbook),
    );
    const key = ({ time, subject, value, band }: Pick<ReadingEvent, 'time' | 'subject' | 'value' | 'band'>) =>
      JSON.stringify([Date.parse(time), subject, value, band]);
    const known = new Set(logbook.readings.filter(({ kind }) => kind === 'field-strength').map(key));
    return readings.filter((reading) => !known.has(key(reading)));
  };
}

function bandOfSite(name: string, { site }: Logbook): string {
  return bandAsked(name, site.region, site.bandEdges).band;
}

/**
 * Whether visits may stand for a healthy antenna, one event for each. A word on a visit stands at the visit's own time,
 * unless the user gives one, so that a history in the order of time shows the two together.
 */
export function baselines(
  visitTexts: string,
  word: string,
  { time, text }: Common,
  { at }: { readonly at?: string },
): Maker {
  if (word !== 'yes' && word !== 'no') throw wrong('yes|no', `must be yes or no, got "${word}"`);
  const wanted = parseNumbers([visitTexts], 'VISITS');
  return ({ visits }) => {
    return wanted.map((number) => {
      const visit = visits.find((one) => one.visit === number);
      if (visit === undefined) throw new UserError('visit-unknown', `there is no visit ${number}`);
      return {
        time: at === undefined ? visit.time : time,
        text,
        event: 'baseline',
        visit: number,
        baseline: word === 'yes',
      };
    });
  };
}

/** Watts of `--power`; null where it is not given. */
export function powerOf(text: string | undefined): number | null {
  if (text === undefined) return null;
  const powerW = parseQuantity(text, 'power', '--power');
  if (powerW > 0) return powerW;
  throw wrong('--power', `must be more than zero, got "${text}"`);
}

/** A quantity of the command line that must lie within what is possible. */
export function within(
  field: string,
  text: string,
  dimension: Dimension,
  least: string,
  most: string,
  example?: string,
): number {
  const value = parseQuantity(text, dimension, field, example);
  if (value >= parseQuantity(least, dimension) && value <= parseQuantity(most, dimension)) return value;
  throw wrong(field, `must be from ${least} to ${most}, got ${quoted(text)}`);
}

/** The words of a note, with those of `--text` after them. */
export function remark(words: string, { text }: Common): string {
  return text === '' ? words : `${words} (${text})`;
}

/** Rows that are to count as never logged; a withdrawal among them makes stand again what it took back. */
export function withdrawal(rows: string, common: Common): Maker {
  const wanted = parseNumbers([rows], 'ROWS');
  return ({ journal }) => {
    requireWithdrawable(journal.entries, wanted);
    const rows = withReplacedPlans(journal.entries, wanted);
    return rows.map((row) => ({ ...common, event: 'withdraw', row }));
  };
}

function wrong(field: string, message: string): UserError {
  return new UserError('note-options', message, { kind: 'command-line', place: { field } });
}
