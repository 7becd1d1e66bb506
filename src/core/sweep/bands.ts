import { didYouMean } from '../near-miss.ts';
import { quoted } from '../quoted.ts';
import type { ItuRegion } from '../site.ts';
import { UserError } from '../user-error.ts';

/** An amateur band as a range of frequencies. */
export interface Band {
  readonly band: string;
  readonly fromHz: number;
  readonly toHz: number;
}

/** When the table below was last compared with its sources. */
export const BAND_TABLE_DATE = '2026-11-25';

type Edges = readonly [fromKhz: number, toKhz: number];

/**
 * Band edges in kHz by ITU region. They say where the tool looks, never what a licence allows: national rules differ.
 *
 * Source: ITU Radio Regulations, article 5, as transcribed for the check values: 160–15 m and 60 m (WRC-15)
 * published; 12 m, 10 m and the Region 1 edge of 6 m (WRC-19) from memory.
 */
const TABLE: Readonly<Record<string, readonly [Edges, Edges, Edges]>> = {
  '160m': [
    [1810, 1850],
    [1800, 2000],
    [1800, 2000],
  ],
  '80m': [
    [3500, 3800],
    [3500, 4000],
    [3500, 3900],
  ],
  '60m': [
    [5351.5, 5366.5],
    [5351.5, 5366.5],
    [5351.5, 5366.5],
  ],
  '40m': [
    [7000, 7200],
    [7000, 7300],
    [7000, 7200],
  ],
  '30m': [
    [10100, 10150],
    [10100, 10150],
    [10100, 10150],
  ],
  '20m': [
    [14000, 14350],
    [14000, 14350],
    [14000, 14350],
  ],
  '17m': [
    [18068, 18168],
    [18068, 18168],
    [18068, 18168],
  ],
  '15m': [
    [21000, 21450],
    [21000, 21450],
    [21000, 21450],
  ],
  '12m': [
    [24890, 24990],
    [24890, 24990],
    [24890, 24990],
  ],
  '10m': [
    [28000, 29700],
    [28000, 29700],
    [28000, 29700],
  ],
  '6m': [
    [50000, 52000],
    [50000, 54000],
    [50000, 54000],
  ],
};

/** Names of the bands in the table, falling in wavelength. */
export const BAND_NAMES: readonly string[] = Object.keys(TABLE);

/** The region that is taken where none is named. */
export const DEFAULT_REGION: ItuRegion = 1;

/** The site's own edges, by band name, in hertz. */
export type BandOverrides = Readonly<Record<string, readonly [fromHz: number, toHz: number]>>;

/** All bands of a region, rising, with the site's own edges in place of the table's. */
export function bandsOfRegion(region: ItuRegion, overrides: BandOverrides = {}): Band[] {
  const names = new Set([...BAND_NAMES, ...Object.keys(overrides)]);
  return [...names]
    .map((band) => {
      const own = overrides[band];
      const [fromKhz, toKhz] = TABLE[band]?.[region - 1] ?? [Number.NaN, Number.NaN];
      return own === undefined
        ? { band, fromHz: fromKhz * 1e3, toHz: toKhz * 1e3 }
        : { band, fromHz: own[0], toHz: own[1] };
    })
    .sort((a, b) => a.fromHz - b.fromHz);
}

/** `40`, `40 m` and `40M` as `40m`. */
export function canonicalBandName(name: string): string {
  return name
    .trim()
    .toLowerCase()
    .replaceAll(' ', '')
    .replace(/^(\d+)$/u, '$1m');
}

/**
 * One band by name; `40`, `40 m` and `40M` are taken as `40m`.
 * @throws UserError `band-unknown`
 */
export function findBand(name: string, region: ItuRegion, overrides: BandOverrides = {}): Band {
  const wanted = canonicalBandName(name);
  const all = bandsOfRegion(region, overrides);
  const found = all.find((band) => band.band === wanted);
  if (found !== undefined) return found;
  const names = all.map((band) => band.band);
  throw new UserError(
    'band-unknown',
    `band ${quoted(name)} is not one of ${names.join(', ')}${meantBand(wanted, names)}`,
  );
}

/** A wavelength further off than this ratio is no slip of the pen. */
const NEAR = 1.25;

/** The near miss: by wavelength, because 75 m means 80 m and not 15 m, whatever letters it shares. */
function meantBand(wanted: string, names: readonly string[]): string {
  const metres = wavelength(wanted);
  if (Number.isNaN(metres)) return didYouMean(wanted, names);
  const offBy = (name: string): number => Math.max(wavelength(name) / metres, metres / wavelength(name));
  const [near] = names.filter((name) => offBy(name) <= NEAR).sort((a, b) => offBy(a) - offBy(b));
  return near === undefined ? '' : `, did you mean "${near}"?`;
}

/** The figure in a name such as `40m`, else NaN. */
function wavelength(name: string): number {
  return Number(/^(\d+(?:\.\d+)?)m$/u.exec(name)?.[1]);
}

/** Middle of a band, Hz. */
export function bandCentreHz(band: Band): number {
  return (band.fromHz + band.toHz) / 2;
}
