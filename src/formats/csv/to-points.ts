import { reflectionSize, swrOfReflection } from '../../core/sweep/reflection.ts';
import { DEFAULT_REFERENCE_OHM } from '../../core/sweep/sweep.ts';
import type { Points } from '../assemble.ts';
import { type FrequencyUnit, HZ_PER_UNIT, toHz } from '../frequency-unit.ts';
import { type PairMeaning, pairToImpedance } from '../network-pair.ts';
import type { ProblemList } from '../problem.ts';
import type { ReadOptions } from '../read-options.ts';
import { plural } from '../words.ts';
import type { ColumnChoice } from './column-choice.ts';
import type { Header } from './header.ts';
import { choosePhaseUnit } from './phase-unit.ts';
import type { RawPoints } from './raw-points.ts';
import { linearSizes } from './reflection-sizes.ts';
import type { Rows } from './rows.ts';

const RAD_PER_DEG = Math.PI / 180;

/** How the raw columns are to be understood. */
export interface Reading {
  readonly header: Header;
  readonly choice: ColumnChoice;
  readonly unit: FrequencyUnit;
  readonly rows: Rows;
  readonly options: ReadOptions;
}

/**
 * Raw columns as points in SI: resistance and reactance, or SWR where no more can be had.
 * @throws UserError `reflection-form-open` for a bare S11 column that may be linear or dB
 */
export function toPoints(raw: RawPoints, reading: Reading, problems: ProblemList): Points {
  const { choice, options, rows } = reading;
  const referenceOhm = options.referenceOhm ?? options.instrumentReferenceOhm ?? DEFAULT_REFERENCE_OHM;
  const values =
    choice.kind === 'pair'
      ? impedances(raw, reading, choice, referenceOhm, problems)
      : { first: swrs(raw, reading, choice, referenceOhm, problems), second: new Float64Array(0) };
  const hzPerUnit = HZ_PER_UNIT[reading.unit];
  const frequencyHz = new Float64Array(raw.frequency.length);
  for (let i = 0; i < frequencyHz.length; i++) frequencyHz[i] = toHz(raw.frequency[i] as number, hzPerUnit);
  return {
    kind: choice.kind === 'pair' ? ('impedance' as const) : ('swr' as const),
    frequencyHz,
    ...values,
    breaks: raw.breaks,
    referenceOhm,
    plane: options.plane ?? 'feedpoint',
    lineOf: (point: number) => rows.lineOf(raw.row[point] as number),
  };
}

/** Resistance and reactance of each point, ohm; NaN (noted) for an open circuit. */
function impedances(
  raw: RawPoints,
  { header, choice, rows, options }: Reading,
  { parameter, format }: Extract<ColumnChoice, { kind: 'pair' }>,
  referenceOhm: number,
  problems: ProblemList,
): { first: Float64Array; second: Float64Array } {
  const firstScale = scaleOf(header, choice.first);
  if (parameter === 'Z' && format === 'RI') {
    return {
      first: scaled(raw.first, firstScale),
      second: scaled(raw.second, scaleOf(header, choice.second)),
    };
  }
  const sized = parameter === 'S' && format !== 'RI';
  const named = header[choice.second]?.unit ?? null;
  const radians = format !== 'RI' && choosePhaseUnit(raw.second, named, parameter === 'Z', options) === 'rad';
  if (parameter === 'S' && !referenceStated(options)) {
    problems.note(
      'reference-assumed',
      `the reflection columns state no reference: taken as ${referenceOhm} ohm`,
      null,
      null,
      { choices: [{ referenceOhm }], examples: true },
    );
  }
  const firsts = sized
    ? linearSizes(raw.first, header, choice.first, problems)
    : scaled(raw.first, firstScale);
  const meaning: PairMeaning = { parameter, format: sized ? 'MA' : format, referenceOhm, normalised: false };
  const first = new Float64Array(firsts.length);
  const second = new Float64Array(firsts.length);
  for (let i = 0; i < firsts.length; i++) {
    const other = raw.second[i] as number;
    const impedance = pairToImpedance(meaning, firsts[i] as number, radians ? other / RAD_PER_DEG : other);
    if (impedance === null) {
      problems.note(
        'point-open',
        'an open circuit has no impedance in ohms; the point is left out',
        rows.lineOf(raw.row[i] as number),
      );
    }
    first[i] = impedance?.re ?? Number.NaN;
    second[i] = impedance?.im ?? Number.NaN;
  }
  return { first, second };
}

function referenceStated({ referenceOhm, instrumentReferenceOhm }: ReadOptions): boolean {
  return (referenceOhm ?? instrumentReferenceOhm) !== undefined;
}

/** SWR of each point; NaN where there is none. */
function swrs(
  raw: RawPoints,
  { header, rows }: Reading,
  choice: Extract<ColumnChoice, { kind: 'scalar' }>,
  referenceOhm: number,
  problems: ProblemList,
): Float64Array {
  if (choice.quantity === 'swr') {
    return raw.first.map((swr, i) => {
      if (!(swr < 1)) return swr;
      problems.refuse('swr-below-one', `an SWR is 1 or more, got ${swr}`, rows.lineOf(raw.row[i] as number));
      return Number.NaN;
    });
  }
  const sizes =
    choice.quantity === 'reactance-size'
      ? raw.first.map((r, i) =>
          reflectionSize(
            r * scaleOf(header, choice.first),
            (raw.second[i] as number) * scaleOf(header, choice.second),
            referenceOhm,
          ),
        )
      : linearSizes(raw.first, header, choice.first, problems);
  const total = sizes.reduce((count, size) => count + (size >= 1 ? 1 : 0), 0);
  if (total > 0) {
    problems.note(
      'reflection-not-below-one',
      `${plural(total, 'point')} of ${sizes.length} with |Γ| ≥ 1: no SWR there, check the instrument's calibration`,
    );
  }
  return sizes.map((size) => swrOfReflection(size) ?? Number.NaN);
}

/** Factor from a column's unit to ohm. */
function scaleOf(header: Header, column: number): number {
  return header[column]?.unit === 'kohm' ? 1e3 : 1;
}

function scaled(values: Float64Array, scale: number): Float64Array {
  return scale === 1 ? values : values.map((value) => value * scale);
}
