import { quoted } from './quoted.ts';
import { UserError } from './user-error.ts';

/** What a quantity measures; each has one SI unit inside the program. */
export type Dimension =
  | 'length'
  | 'wire diameter'
  | 'frequency'
  | 'power'
  | 'resistance'
  | 'conductivity'
  | 'level'
  | 'angle'
  | 'temperature'
  | 'duration'
  | 'current'
  | 'fraction'
  | 'delay'
  | 'capacitance'
  | 'inductance';

const FOOT_M = 0.3048;
const INCH_M = 0.0254;

/** A degree of it in degrees Celsius, and where its scale has the zero of Celsius. */
const FAHRENHEIT = 5 / 9;
const FAHRENHEIT_AT_0_C = 32;

/** Factor to SI for each unit, written in lower case; `example` is what an error message proposes. */
const UNITS: Readonly<
  Record<Dimension, { readonly example: string; readonly factor: Record<string, number> }>
> = {
  length: {
    example: '6m or 20ft',
    factor: { m: 1, mm: 1e-3, cm: 1e-2, km: 1e3, ft: FOOT_M, "'": FOOT_M, in: INCH_M, '"': INCH_M },
  },
  'wire diameter': {
    example: '1.6mm, 14AWG or 2.5mm2',
    factor: { mm: 1e-3, m: 1, cm: 1e-2, in: INCH_M },
  },
  frequency: { example: '7.1MHz', factor: { hz: 1, khz: 1e3, mhz: 1e6, ghz: 1e9 } },
  power: { example: '100W', factor: { w: 1, mw: 1e-3, kw: 1e3 } },
  resistance: {
    example: '36.5ohm',
    factor: { ohm: 1, ohms: 1, ω: 1, mohm: 1e-3, mω: 1e-3, kohm: 1e3, kω: 1e3 },
  },
  conductivity: { example: '5mS/m', factor: { 's/m': 1, 'ms/m': 1e-3 } },
  level: { example: '0.25dB', factor: { db: 1 } },
  angle: { example: '90deg', factor: { deg: 1, '°': 1 } },
  temperature: { example: '12C or 54F', factor: { c: 1, '°c': 1, f: FAHRENHEIT, '°f': FAHRENHEIT } },
  duration: { example: '1h or 30min', factor: { ms: 1e-3, s: 1, min: 60, h: 3600, d: 86400 } },
  current: { example: '120mA', factor: { a: 1, ma: 1e-3 } },
  fraction: { example: '23%', factor: { '%': 0.01 } },
  delay: { example: '30ps', factor: { s: 1, ns: 1e-9, ps: 1e-12 } },
  capacitance: { example: '50fF', factor: { f: 1, pf: 1e-12, ff: 1e-15 } },
  inductance: { example: '2nH', factor: { h: 1, nh: 1e-9, ph: 1e-12 } },
};

/** Each digit fits in one way only, and a unit may hold anything: no text can make the match slow. */
const NUMBER_THEN_UNIT = /^([+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?)\s*(\S.*)?$/su;

/**
 * Parses a quantity written with its unit (`7.5m`, `25ft`, `7.15MHz`, `14AWG`, `2.5mm2`, `33ft 6in`).
 * This is the only place where a unit text becomes a number.
 *
 * @param field - names the place in the error
 * @param example - what the error proposes, where another one fits the field better than the usual one
 * @returns the value in SI units (levels in dB, angles in degrees, temperatures in °C, fractions 0 to 1)
 * @throws UserError `quantity-no-unit`, `quantity-unit-unknown` or `quantity-not-a-number`
 */
export function parseQuantity(
  text: string,
  dimension: Dimension,
  field?: string,
  example: string = UNITS[dimension].example,
): number {
  const { factor } = UNITS[dimension];
  const place = { field };
  const match = NUMBER_THEN_UNIT.exec(text.trim());
  const value = match === null ? Number.NaN : Number(match[1]);
  const unit = (match?.[2] ?? '').replaceAll('\u2126', 'ω').replaceAll('Ω', 'ω');
  if (Number.isFinite(value) && unit === '') {
    throw new UserError('quantity-no-unit', `needs a unit, such as ${example}, got ${quoted(text)}`, {
      place,
    });
  }
  const si = Number.isFinite(value) ? inSi(value, unit, dimension) : Number.NaN;
  if (si === null) {
    throw new UserError(
      'quantity-unit-unknown',
      `unit ${quoted(unit)} is not one of ${Object.keys(factor).join(', ')}; write it like ${example}`,
      { place },
    );
  }
  if (Number.isFinite(si)) return si;
  throw new UserError(
    'quantity-not-a-number',
    `needs a ${dimension} such as ${example}, got ${quoted(text)}`,
    { place },
  );
}

/** A value in SI; null when the unit is none of this dimension. */
function inSi(value: number, unit: string, dimension: Dimension): number | null {
  if (dimension === 'wire diameter') {
    const diameterM = wireDiameterM(value, unit.toLowerCase());
    if (diameterM !== null) return diameterM;
  }
  const { factor } = UNITS[dimension];
  const factorOf = (name: string) => (Object.hasOwn(factor, name) ? factor[name] : undefined);
  const found = factorOf(unit) ?? (isMega(unit, dimension) ? undefined : factorOf(unit.toLowerCase()));
  if (found !== undefined) return (value - zeroOf(unit, dimension)) * found;
  const feetAndInches = dimension === 'length' ? /^(?:ft|')\s*([\d.]+)\s*(?:in|")$/u.exec(unit) : null;
  if (feetAndInches === null || !Number.isFinite(Number(feetAndInches[1]))) return null;
  return value * FOOT_M + Number(feetAndInches[1]) * INCH_M;
}

/** Every unit but one begins at the zero of its dimension. */
function zeroOf(unit: string, dimension: Dimension): number {
  return dimension === 'temperature' && /f$/iu.test(unit) ? FAHRENHEIT_AT_0_C : 0;
}

/** Milli and mega differ only by the case of their first letter, and here both make sense: M is never taken for m. */
function isMega(unit: string, dimension: Dimension): boolean {
  return unit.startsWith('M') && ['power', 'resistance', 'current', 'conductivity'].includes(dimension);
}

/**
 * Diameter of a round wire from its gauge or its nominal area.
 * Source: ASTM B258 (AWG: 0.127 mm × 92^((36−n)/39)); IEC 60228 areas are nominal, taken as solid round.
 */
function wireDiameterM(value: number, unit: string): number | null {
  if (unit === 'awg') return 0.127e-3 * 92 ** ((36 - value) / 39);
  if (unit === 'mm2' || unit === 'mm²') return Math.sqrt((4 * value) / Math.PI) * 1e-3;
  return null;
}

/** Units of what is shown; inside, everything is SI. */
export type UnitSystem = 'metric' | 'imperial';

/** In what a length is told. */
export interface LengthUnit {
  readonly name: 'm' | 'ft' | 'in';
  readonly unitM: number;
  readonly digits: number;
}

/** Below this nobody counts in feet, m: one yard. */
const SHORTEST_IN_FEET_M = 3 * FOOT_M;

/**
 * The unit in which people tell a length: metres; or feet, and below a yard inches with a decimal less.
 * @param digits - decimals of metres or feet
 */
export function lengthUnit(lengthM: number, units: UnitSystem, digits = 1): LengthUnit {
  if (units === 'metric') return { name: 'm', unitM: 1, digits };
  const isShort = lengthM !== 0 && Math.abs(lengthM) < SHORTEST_IN_FEET_M * (1 - 1e-9);
  return isShort
    ? { name: 'in', unitM: INCH_M, digits: Math.max(0, digits - 1) }
    : { name: 'ft', unitM: FOOT_M, digits };
}

/** A length for people, in metres, or feet and inches, as the site says; see {@link lengthUnit}. */
export function formatLength(lengthM: number, units: UnitSystem, digits = 1): string {
  const unit = lengthUnit(lengthM, units, digits);
  return `${(lengthM / unit.unitM).toFixed(unit.digits)} ${unit.name}`;
}

/** A diameter or depth for people, in millimetres or inches as the site says. */
export function formatDiameter(diameterM: number, units: UnitSystem): string {
  return units === 'metric'
    ? `${Number((diameterM * 1e3).toFixed(1))} mm`
    : `${Number((diameterM / INCH_M).toFixed(2))} in`;
}

/** A temperature for people, in degrees Celsius or Fahrenheit as the site says, with at most so many decimals. */
export function formatTemperature(celsius: number, units: UnitSystem, most = 1): string {
  const value = units === 'metric' ? celsius : celsius / FAHRENHEIT + FAHRENHEIT_AT_0_C;
  return `${Number(value.toFixed(most))} ${units === 'metric' ? '°C' : '°F'}`;
}

/** A frequency for people, in MHz to the kHz (or finer with more digits). */
export function formatFrequency(frequencyHz: number, digits = 3): string {
  return `${(frequencyHz / 1e6).toFixed(digits)} MHz`;
}
