/** What a column of an instrument's answer can hold. */
export const COLUMN_QUANTITIES = [
  'frequency',
  'resistance',
  'reactance',
  'impedance-magnitude',
  'impedance-phase',
  'reflection-real',
  'reflection-imaginary',
  'reflection-magnitude',
  'reflection-phase',
  'return-loss',
  'swr',
  'ignore',
] as const;

/** What a column of points holds. */
export type ColumnQuantity = (typeof COLUMN_QUANTITIES)[number];

/** One column of points, with its unit. */
export interface Column {
  readonly quantity: ColumnQuantity;
  readonly unit: string;
}

const HERTZ = { Hz: 1, kHz: 1e3, MHz: 1e6 };
const OHM = { ohm: 1, mohm: 1e-3, kohm: 1e3 };
const ANGLE = { rad: 1, deg: Math.PI / 180 };
const PART = { '1': 1, '0.001': 1e-3, '0.000001': 1e-6 };

/** The factor of each unit; that of dB is not used, see {@link toInside}. */
export const COLUMN_UNITS: Readonly<Record<ColumnQuantity, Readonly<Record<string, number>>>> = {
  frequency: HERTZ,
  resistance: OHM,
  reactance: OHM,
  'impedance-magnitude': OHM,
  'impedance-phase': ANGLE,
  'reflection-real': PART,
  'reflection-imaginary': PART,
  'reflection-magnitude': { '1': 1, dB: 1 },
  'reflection-phase': ANGLE,
  'return-loss': { dB: 1 },
  swr: { '1': 1 },
  ignore: { any: 1 },
};

/** The quantities that make a point when they stand together. */
const COLUMN_SETS: readonly (readonly ColumnQuantity[])[] = [
  ['resistance', 'reactance'],
  ['reflection-real', 'reflection-imaginary'],
  ['impedance-magnitude', 'impedance-phase'],
  ['reflection-magnitude', 'reflection-phase'],
  ['return-loss', 'reflection-phase'],
  ['swr'],
];

/** The one set that the columns hold, or null when there is none, or more than one. */
export function columnSet(columns: readonly Column[]): readonly ColumnQuantity[] | null {
  const given: ColumnQuantity[] = columns
    .map(({ quantity }) => quantity)
    .filter((quantity) => quantity !== 'frequency' && quantity !== 'ignore');
  const holds = (set: readonly ColumnQuantity[]): boolean =>
    set.length === given.length && set.every((quantity) => given.includes(quantity));
  return COLUMN_SETS.find(holds) ?? null;
}

/** A value as it came, in hertz, ohm, radians, or a plain number. */
export function toInside({ quantity, unit }: Column, value: number): number {
  if (quantity === 'return-loss') return 10 ** (-value / 20);
  if (quantity === 'reflection-magnitude' && unit === 'dB') return 10 ** (value / 20);
  return value * (COLUMN_UNITS[quantity][unit] as number);
}
