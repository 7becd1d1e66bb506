import { type CsvError, parse } from 'csv-parse/sync';
import type { ReadingEvent } from '../core/journal-event.ts';
import { didYouMean } from '../core/near-miss.ts';
import { type Dimension, parseQuantity } from '../core/quantity.ts';
import { quoted } from '../core/quoted.ts';
import { canonicalBandName } from '../core/sweep/bands.ts';
import { describePlace, UserError } from '../core/user-error.ts';

type Name = 'time' | 'place' | 'level' | 'power' | 'band' | 'text';

/** Header words; a unit in the header lets the cells be bare numbers. */
const HEADERS: ReadonlyMap<string, { readonly name: Name; readonly unit: string }> = new Map(
  Object.entries({
    time: { name: 'time', unit: '' },
    place: { name: 'place', unit: '' },
    level: { name: 'level', unit: '' },
    db: { name: 'level', unit: 'dB' },
    level_db: { name: 'level', unit: 'dB' },
    power: { name: 'power', unit: '' },
    power_w: { name: 'power', unit: 'W' },
    band: { name: 'band', unit: '' },
    text: { name: 'text', unit: '' },
  } as const),
);

/** So much is told of what the CSV grammar says, which repeats the whole cell. */
const LONGEST_CAUSE = 200;

/** How many problems of a file are spelled out; the rest are counted. */
const MOST_TOLD = 20;

/**
 * Reads field-strength readings from CSV (comma, semicolon or tab) with a header of `time,place,level,power`
 * or `time,place,level_db,power_w`; power may be left out, as may the columns `band` and `text`.
 *
 * @param checkTime - gives a time back as the journal writes it, or throws a UserError
 * @param checkBand - the same for a band
 * @throws UserError `readings-csv`, `readings-header`, `readings-invalid`; the last with its problems and their lines
 */
export function parseFieldReadings(
  csv: string,
  fileName: string,
  checkTime: (text: string) => string,
  checkBand: (text: string) => string = canonicalBandName,
): ReadingEvent[] {
  const delimiter = delimiterOf(csv);
  const [header, ...rows] = rowsOf(csv, delimiter, fileName);
  const columns = columnsOf(header?.record ?? [], fileName);
  const problems: string[] = [];
  const readings = rows.map(({ record, line }) => {
    const place = { file: fileName, line };
    const attempt = <T>(name: string, convert: () => T): T | null => {
      try {
        return convert();
      } catch (error) {
        if (!(error instanceof UserError)) throw error;
        problems.push(`${describePlace({ ...place, field: name })}${error.message}`);
        return null;
      }
    };
    const textOf = (name: Name) => record[columns.get(name)?.index ?? -1]?.trim() ?? '';
    const quantityOf = (name: Name, dimension: Dimension) => {
      // Where the comma does not part the cells, it may be a decimal comma.
      const bare = delimiter === ',' ? textOf(name) : textOf(name).replace(/^([-+]?\d+),(\d)/u, '$1.$2');
      const unit = /\d$/u.test(bare) ? (columns.get(name)?.unit ?? '') : '';
      return attempt(name, () => parseQuantity(bare + unit, dimension));
    };
    return {
      event: 'field-strength' as const,
      time: attempt('time', () => checkTime(textOf('time'))) ?? '',
      value: quantityOf('level', 'level'),
      subject: attempt('place', () => needed(textOf('place'))),
      powerW: textOf('power') === '' ? null : quantityOf('power', 'power'),
      ...(textOf('band') === '' ? {} : { band: attempt('band', () => checkBand(textOf('band'))) ?? '' }),
      text: textOf('text'),
    };
  });
  if (problems.length === 0) return readings;
  const told = problems.slice(0, MOST_TOLD);
  if (told.length < problems.length) told.push(`and ${problems.length - told.length} more`);
  throw new UserError('readings-invalid', `nothing was logged\n  ${told.join('\n  ')}`, {
    place: { file: fileName },
  });
}

function delimiterOf(csv: string): string {
  const firstLine = csv.slice(0, csv.search(/[\r\n]|$/u));
  return [';', '\t'].find((delimiter) => firstLine.includes(delimiter)) ?? ',';
}

function rowsOf(csv: string, delimiter: string, fileName: string): { record: string[]; line: number }[] {
  try {
    const rows = parse(csv, {
      bom: true,
      delimiter,
      record_delimiter: ['\r\n', '\n', '\r'],
      skip_empty_lines: true,
      info: true,
    }) as unknown as { record: string[]; info: { lines: number } }[];
    return rows.map(({ record, info }) => ({ record, line: info.lines }));
  } catch (cause) {
    const { lines, message } = cause as CsvError & { lines?: number };
    throw new UserError('readings-csv', message.slice(0, LONGEST_CAUSE), {
      place: { file: fileName, line: lines },
      cause,
    });
  }
}

function columnsOf(header: readonly string[], file: string): Map<Name, { index: number; unit: string }> {
  const columns = new Map<Name, { index: number; unit: string }>();
  const place = { file, line: 1 };
  for (const [index, word] of header.entries()) {
    const known = HEADERS.get(word.trim().toLowerCase());
    if (known === undefined) {
      const near = didYouMean(word, HEADERS.keys());
      throw new UserError('readings-header', `unknown column ${quoted(word)}${near}`, { place });
    }
    columns.set(known.name, { index, unit: known.unit });
  }
  const missing = (['time', 'place', 'level'] as const).filter((name) => !columns.has(name));
  if (missing.length === 0) return columns;
  throw new UserError(
    'readings-header',
    `needs a header such as time,place,level_db,power_w; missing: ${missing.join(', ')}`,
    {
      place,
    },
  );
}

function needed(text: string): string {
  if (text !== '') return text;
  throw new UserError('readings-place', 'needs the name of a place, got an empty cell');
}
