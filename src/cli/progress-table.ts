import type { Measure } from '../core/proof/figures.ts';
import { type Place, placeOf, signedTo, textTo } from '../core/proof/rounding.ts';
import { isGainToldNothing, isToldNothing } from '../core/proof/told-nothing.ts';
import { formatLength } from '../core/quantity.ts';
import type { BoundedQuantity, Quantity } from '../core/quantity-with-uncertainty.ts';
import { figure, table } from './answer.ts';
import type { ProgressFound } from './progress.ts';

/** One column of the table: a head, and a cell for each step. */
type Column = readonly [head: string, cell: (i: number) => string];

/** A row a field state. */
export function stepTable({ progress: { steps }, strength, planned, logbook }: ProgressFound): string {
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
  const isCorrected = steps.some(({ soilCorrectionOhm }) => soilCorrectionOhm !== 0);
  const r = quantityColumns(
    'R at X = 0',
    of(({ resistanceAtResonanceOhm }) => resistanceAtResonanceOhm),
    { decimals: 2, isNothing: untold('resistanceAtResonanceOhm') },
  );
  const [resonance] = quantityColumns(
    'X = 0 MHz',
    of(({ resonanceHz }) => resonanceHz),
    { perSi: 1e-6, decimals: 4, isNothing: untold('resonanceHz') },
  );
  const [bandwidth] = quantityColumns(
    '2:1 kHz',
    of(({ swr2BandwidthHz }) => swr2BandwidthHz),
    { perSi: 1e-3, decimals: 0, isNothing: untold('swr2BandwidthHz') },
  );
  const forMoisture: Column = [
    'for moisture',
    of(({ soilCorrectionOhm, resistanceAtResonanceOhm: { expandedUncertainty } }) =>
      signedTo(placeOf(expandedUncertainty, 2), soilCorrectionOhm),
    ),
  ];
  const columns: readonly Column[] = [
    ['state', (i) => String(i + 1)],
    ['since', of(({ time }) => time?.slice(0, 10) ?? '-')],
    ['radials', of(({ radials }) => String(radials))],
    ['wire', of(({ wireM }) => formatLength(wireM, logbook.site.units))],
    ...r,
    ...(isCorrected ? [forMoisture] : []),
    ...plannedColumns,
    resonance,
    bandwidth,
    ...quantityColumns(
      isCorrected ? 'dB by R so corrected' : 'dB by R',
      of(({ gainDb }) => gainDb),
      { decimals: 2, isNothing: isGainToldNothing },
    ),
    ...strengthColumns,
  ];
  const rows = steps.map((_, i) => columns.map(([, cell]) => cell(i)));
  return table([columns.map(([head]) => head), ...rows]);
}

/** How a quantity is shown. */
interface Shown {
  readonly perSi?: number;
  /** Where its uncertainty is not known. */
  readonly decimals: number;
  /** Whether its uncertainty leaves nothing to be told of it. */
  readonly isNothing?: (quantity: Quantity) => boolean;
}

/** A quantity and its uncertainty, with as many digits as it tells. */
function quantityColumns(
  head: string,
  of: (i: number) => BoundedQuantity,
  { perSi = 1, decimals, isNothing = () => false }: Shown,
): readonly [Column, Column] {
  const placeFor = ({ expandedUncertainty: u }: Quantity): Place =>
    placeOf(u === null ? null : u * perSi, decimals);
  const value = (quantity: BoundedQuantity): string => {
    if (quantity.atLeast !== undefined) return `≥ ${Math.floor(quantity.atLeast * perSi)}`;
    if (isNothing(quantity)) return 'cannot be told';
    return quantity.value === null ? '-' : textTo(placeFor(quantity), quantity.value * perSi);
  };
  // The first state has none against itself.
  const uncertainty = (quantity: Quantity): string =>
    quantity.value === null || !quantity.expandedUncertainty || isNothing(quantity)
      ? '-'
      : textTo(placeFor(quantity), quantity.expandedUncertainty * perSi);
  return [
    [head, (i) => value(of(i))],
    ['± U', (i) => uncertainty(of(i))],
  ];
}

/** Whether the uncertainty of a measure leaves nothing to be told of it. */
function untold(measure: Measure): (quantity: Quantity) => boolean {
  return (quantity) => isToldNothing(measure, quantity, [quantity]);
}
