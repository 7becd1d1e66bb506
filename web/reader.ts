import { lengthUnit, type UnitSystem } from '../src/core/quantity.ts';

/** How this reader wants figures: the browser's locale, and metric or imperial. */
export interface Reader {
  readonly units: UnitSystem;
  /** A number with a fixed count of decimals; `–` for what cannot be had. */
  number(value: number | null | undefined, decimals: number): string;
  /** The same, with a sign. */
  signed(value: number | null | undefined, decimals: number): string;
  /** Megahertz with its unit. */
  frequency(hz: number | null | undefined, decimals?: number): string;
  /** Metres, or feet and inches, with the unit. */
  length(lengthM: number | null | undefined, decimals?: number): string;
  /** Millimetres or inches with the unit: a diameter, a depth, rain. */
  small(lengthM: number | null | undefined): string;
  /** Degrees Celsius or Fahrenheit with the unit. */
  temperature(celsius: number | null | undefined): string;
  /** A date on the clock where it was written. */
  date(iso: string): string;
  /** Date and time with the zone in which it was written. */
  time(iso: string): string;
  /** A sentence that was written elsewhere, with its figures, ohms and days as this reader writes them. */
  prose(text: string): string;
}

/** Days and times in prose, but not those in names of files. */
const ISO_TIME = /(?<![\w/-])\d{4}-\d\d-\d\d(?:T\d\d:\d\d[\d:.]*(?:Z|[+-]\d\d:\d\d))?(?![\w-])/gu;
/** Decimal figures in prose; sections of codes, versions and names of files are none. */
const DECIMAL = /(?<![\w.-]|(?:NEC|CFR|§) )(\d+)\.(\d+)(?![\w(]|[.-]\w)/gu;

export const NONE = '–';
const INCH_M = 0.0254;

export function readerFor(units: UnitSystem): Reader {
  const locale = usableLocale();
  const formats = new Map<string, Intl.NumberFormat>();
  const format = (decimals: number, signDisplay: 'auto' | 'exceptZero'): Intl.NumberFormat => {
    const key = `${decimals}${signDisplay}`;
    const known = formats.get(key);
    if (known !== undefined) return known;
    const made = new Intl.NumberFormat(locale, {
      minimumFractionDigits: decimals,
      maximumFractionDigits: decimals,
      signDisplay,
    });
    formats.set(key, made);
    return made;
  };
  const days = once(() => new Intl.DateTimeFormat(locale, { dateStyle: 'medium', timeZone: 'UTC' }));
  const moments = once(
    () => new Intl.DateTimeFormat(locale, { dateStyle: 'medium', timeStyle: 'short', timeZone: 'UTC' }),
  );
  const number = (value: number | null | undefined, decimals: number): string =>
    isFigure(value) ? format(decimals, 'auto').format(value) : NONE;
  const inUnit = (value: number | null | undefined, decimals: number, unit: string): string =>
    isFigure(value) ? `${number(value, decimals)} ${unit}` : NONE;
  const dayOf = (iso: string): string => onItsClock(days(), iso);
  const timeOf = (iso: string): string => {
    const zone = zoneOf(iso);
    const text = onItsClock(moments(), iso);
    return zone === null ? text : `${text} ${zone === 'Z' || zone === '+00:00' ? 'UTC' : `UTC${zone}`}`;
  };
  const point = once(() => new Intl.NumberFormat(locale).format(1.1).charAt(1));
  const isMetric = units === 'metric';
  return {
    units,
    number,
    signed: (value, decimals) => (isFigure(value) ? format(decimals, 'exceptZero').format(value) : NONE),
    frequency: (hz, decimals = 3) => inUnit(times(hz, 1e-6), decimals, 'MHz'),
    length: (lengthM, decimals = 1) => {
      const { name, unitM, digits } = lengthUnit(lengthM ?? 0, units, decimals);
      return inUnit(times(lengthM, 1 / unitM), digits, name);
    },
    small: (lengthM) =>
      isMetric ? inUnit(times(lengthM, 1e3), 1, 'mm') : inUnit(times(lengthM, 1 / INCH_M), 2, 'in'),
    temperature: (celsius) =>
      isMetric ? inUnit(celsius, 1, '°C') : inUnit(isFigure(celsius) ? 1.8 * celsius + 32 : null, 1, '°F'),
    date: dayOf,
    time: timeOf,
    prose: (text) =>
      text
        .replaceAll(ISO_TIME, (iso) => (iso.length > 10 ? timeOf(iso) : dayOf(iso)))
        .replaceAll(DECIMAL, `$1${point()}$2`)
        .replaceAll(/(\d) ohm\b/gu, '$1 Ω'),
  };
}

function isFigure(value: number | null | undefined): value is number {
  return typeof value === 'number' && Number.isFinite(value);
}

function times(value: number | null | undefined, factor: number): number | null {
  return isFigure(value) ? value * factor : null;
}

/** The zone written at the end of an ISO 8601 time. */
function zoneOf(iso: string): string | null {
  return /(?:Z|[+-]\d{2}:\d{2})$/u.exec(iso)?.[0] ?? null;
}

/** Formats are dear to make: each is made when it is first needed, and once. */
function once<T>(make: () => T): () => T {
  let made: T | null = null;
  return () => {
    made ??= make();
    return made;
  };
}

/** A time as it stood on the clock where it was written, whatever zone the reader sits in. */
function onItsClock(format: Intl.DateTimeFormat, iso: string): string {
  const clock = new Date(iso.replace(/(?:Z|[+-]\d{2}:\d{2})$/u, 'Z'));
  return Number.isNaN(clock.getTime()) ? iso : format.format(clock);
}

/** Some systems report locales such as `en-US@posix`, which the language library refuses. */
function usableLocale(): string {
  for (const candidate of navigator.languages) {
    try {
      return new Intl.NumberFormat(candidate).resolvedOptions().locale;
    } catch {
      // the next one
    }
  }
  return 'en';
}
