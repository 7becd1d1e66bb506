import {
  FREQUENCY_UNITS,
  type FrequencyUnit,
  frequencyUnit,
  HIGHEST_PLAUSIBLE_HZ,
  HZ_PER_UNIT,
  plausibleUnits,
} from '../frequency-unit.ts';
import { OpenReading, type ProblemList } from '../problem.ts';
import type { ReadOptions } from '../read-options.ts';
import { cellNumber, hasEitherComma } from './cell.ts';
import type { ColumnChoice } from './column-choice.ts';
import type { RawPoints } from './raw-points.ts';
import type { Rows } from './rows.ts';

/**
 * The unit of the frequency column: the user's word, else the header's, else the only plausible one (noted).
 *
 * @param named - the unit in the header, lower case, or null
 * @throws UserError `frequency-unit-open` when several units are plausible, or none
 */
export function chooseFrequencyUnit(
  named: string | null,
  frequency: Float64Array,
  options: ReadOptions,
  problems: ProblemList,
): FrequencyUnit {
  const own = named === null ? null : frequencyUnit(named);
  if (options.unit !== undefined) {
    if (own !== null && own !== options.unit) {
      problems.note('frequency-unit-overruled', `the header says ${own}, read as ${options.unit} as asked`);
    }
    return options.unit;
  }
  if (own !== null) return own;
  const [from, to] = rangeOf(frequency);
  const [unit, ...others] = plausibleUnits(from, to);
  if (unit !== undefined && others.length === 0) {
    problems.note(
      'frequency-unit-assumed',
      `no unit for the frequency: read as ${unit}, the only one that puts ${from} to ${to} in an amateur band`,
      null,
      null,
      { choices: [{ unit }], examples: true },
    );
    return unit;
  }
  const open = unit === undefined ? FREQUENCY_UNITS : [unit, ...others];
  const readings =
    unit === undefined
      ? 'is in no amateur band (160 m to 6 m), whatever the unit'
      : `may be ${open.join(' or ')}`;
  throw new OpenReading(
    'frequency-unit-open',
    `no unit for the frequency: ${from} to ${to} ${readings}`,
    open.map((unit) => ({ unit })),
  );
}

/**
 * Whether commas that could all stand between thousands (`7,100`) are certainly decimal ones: they are when the other
 * reading puts the frequency out of reach, or where a single value of the file leaves no other (`0,316`).
 *
 * @throws UserError `decimal-mark-open`
 */
export function checkCommas(rows: Rows, raw: RawPoints, unit: FrequencyUnit, choice: ColumnChoice): void {
  const row = raw.row[0] as number;
  const cell = rows.cells[row]?.[choice.frequency] ?? '';
  const [, to] = rangeOf(raw.frequency);
  if (cell.includes(',') && to * HZ_PER_UNIT[unit] * 1000 > HIGHEST_PLAUSIBLE_HZ) return;
  const columns = [choice.frequency, choice.first, choice.second];
  if (rows.cells.some((line) => columns.some((column) => hasDecimalComma(line[column] ?? '')))) return;
  const sample = rows.cells[row]?.find((other) => other.includes(',')) ?? cell;
  const [point, whole] = [sample.replace(',', '.'), sample.replace(',', '')];
  throw new OpenReading(
    'decimal-mark-open',
    `"${sample.trim()}" may be ${point.trim()} or ${whole.trim()}; thousands have to be written without a comma, and a decimal comma has to be declared`,
    [{ decimal: 'comma' }],
    { line: rows.lineOf(row) },
  );
}

function hasDecimalComma(cell: string): boolean {
  return cell.includes(',') && !hasEitherComma(cell) && !Number.isNaN(cellNumber(cell, true));
}

function rangeOf(frequency: Float64Array): [from: number, to: number] {
  let [from, to] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (let i = 0; i < frequency.length; i++) {
    from = Math.min(from, frequency[i] as number);
    to = Math.max(to, frequency[i] as number);
  }
  return [from, to];
}
