import { plannedWords } from '../core/proof/planned-resistance.ts';
import type { NextWires } from '../core/proof/progress.ts';
import { decimalsFor } from '../core/proof/shown-as.ts';
import { formatLength } from '../core/quantity.ts';
import type { Quantity } from '../core/quantity-with-uncertainty.ts';
import { figure, table } from './answer.ts';
import type { ProgressFound } from './progress.ts';
import { progressNotes } from './progress-notes.ts';

/** Progress for people: the advice, a row a field state, the fit and what comes next. */
export function progressText(found: ProgressFound): string {
  const { progress, band, planned, reversal } = found;
  const { advice, why, steps } = progress;
  const parts = [
    `${band.band}: ${advice}, because ${why}.`,
    steps.length === 0 ? '' : stepTable(found),
    plannedWords(planned),
    fitText(found),
    progressNotes(found)
      .map((note) => `- ${note}.`)
      .join('\n'),
    reversal === null
      ? ''
      : `The last step is not shown by R. A reversal would tell, one command after the other:\n  ${reversal.join('\n  ')}`,
  ];
  return parts.filter((part) => part !== '').join('\n\n');
}

/** One column of the table: a head, and a cell for each step. */
type Column = readonly [head: string, cell: (i: number) => string];

function stepTable({ progress: { steps }, strength, planned, logbook }: ProgressFound): string {
  const of =
    <T>(pick: (step: (typeof steps)[number]) => T) =>
    (i: number): T =>
      pick(steps[i] as (typeof steps)[number]);
  const plannedColumns: Column[] = planned.some((one) => one !== null)
    ? [
        ['planned R', (i) => figure(planned[i]?.valueOhm, 0)],
        ['from', (i) => figure(planned[i]?.lowOhm, 0)],
        ['to', (i) => figure(planned[i]?.highOhm, 0)],
      ]
    : [];
  const strengthColumns: Column[] = strength.some((one) => one !== null)
    ? [
        ['dB by field', (i) => figure(strength[i]?.medianDb, 1)],
        ['± U', (i) => figure(strength[i]?.expandedUncertaintyDb, 1)],
        ['places', (i) => figure(strength[i]?.places.length, 0)],
      ]
    : [];
  const columns: readonly Column[] = [
    ['state', (i) => String(i + 1)],
    ['since', of(({ time }) => time?.slice(0, 10) ?? '-')],
    ['radials', of(({ radials }) => String(radials))],
    ['wire', of(({ wireM }) => formatLength(wireM, logbook.site.units))],
    ...quantityColumns(
      'R at X = 0',
      of(({ resistanceAtResonanceOhm }) => resistanceAtResonanceOhm),
      1,
      2,
    ),
    ...plannedColumns,
    quantityColumns(
      'X = 0 MHz',
      of(({ resonanceHz }) => resonanceHz),
      1e-6,
      4,
    )[0],
    quantityColumns(
      '2:1 kHz',
      of(({ swr2BandwidthHz }) => swr2BandwidthHz),
      1e-3,
      0,
    )[0],
    ...quantityColumns(
      'dB by R',
      of(({ gainDb }) => gainDb),
      1,
      2,
    ),
    ...strengthColumns,
  ];
  const rows = steps.map((_, i) => columns.map(([, cell]) => cell(i)));
  return table([columns.map(([head]) => head), ...rows]);
}

/** A quantity and its uncertainty, with as many digits as it tells. */
function quantityColumns(
  head: string,
  of: (i: number) => Quantity,
  perSi: number,
  otherwise: number,
): readonly [Column, Column] {
  const cell = (value: number | null, { expandedUncertainty: u }: Quantity): string =>
    value === null ? '-' : figure(value * perSi, decimalsFor(u === null ? null : u * perSi, otherwise));
  return [
    [head, (i) => cell(of(i).value, of(i))],
    // The first state has none against itself.
    ['± U', (i) => cell(of(i).expandedUncertainty || null, of(i))],
  ];
}

function fitText({ progress, logbook }: ProgressFound): string {
  const { fit, next, advice } = progress;
  if (fit === null || next === null) return '';
  const { chiSquare, degreesOfFreedom, probability } = fit.quality;
  const parameters = Object.entries(fit.parameters).map(
    ([name, quantity]) => `${PARAMETER_WORDS[name] ?? name} ${withUncertainty(quantity)}`,
  );
  const how =
    probability === null
      ? ''
      : ` It explains the points with χ² ${chiSquare.toFixed(1)} on ${degreesOfFreedom} degrees of freedom.`;
  const allTheSame = advice === 'stop' ? ' laid all the same,' : '';
  return `Fit: ${fit.name}: ${parameters.join(', ')}.${how}\n${nextText(next, logbook.site.units, allTheSame)} (${fit.gainMeans}).`;
}

const PARAMETER_WORDS: Readonly<Record<string, string>> = {
  conductivitySPerM: 'conductivity S/m',
  relativePermittivity: 'permittivity',
  extraResistanceOhm: 'extra resistance ohm',
  amountOhm: 'amount ohm',
  exponent: 'exponent',
  floorOhm: 'floor ohm',
};

const FOOT_M = 0.3048;

function nextText(
  { radials, wireM, gainDb }: NextWires,
  units: 'metric' | 'imperial',
  allTheSame: string,
): string {
  const [length, name] = units === 'imperial' ? [wireM / FOOT_M, 'foot'] : [wireM, 'metre'];
  const each = (count: number): string => withUncertainty(gainDb, 1 / count);
  const wires = `${radials} more ${radials === 1 ? 'wire' : 'wires'}, ${formatLength(wireM, units)},${allTheSame}`;
  return `${wires} would be worth ${withUncertainty(gainDb)} dB: ${each(radials)} dB a wire, ${each(length)} dB a ${name}`;
}

/** `0.21 ± 0.05`, with two digits of what is uncertain. */
function withUncertainty({ value, expandedUncertainty }: Quantity, perSi = 1): string {
  if (value === null) return '-';
  const u = expandedUncertainty === null ? null : expandedUncertainty * perSi;
  const decimals = u === null || !(u > 0) ? 2 : Math.max(0, 1 - Math.floor(Math.log10(u)));
  return `${(value * perSi).toFixed(decimals)} ± ${u === null ? 'unknown' : u.toFixed(decimals)}`;
}
