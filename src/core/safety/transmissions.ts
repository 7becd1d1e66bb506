import type { Site, Transmission } from '../site.ts';
import { type Band, DEFAULT_REGION, findBand } from '../sweep/bands.ts';
import { UserError } from '../user-error.ts';
import { findMode, type Mode } from './modes.ts';

/** More than any amateur licence allows; a figure above it is taken for a slip, W. */
const ABSURD_POWER_W = 10_000;

/** One band at one power in one mode, checked. */
export interface PlannedTransmission {
  readonly band: Band;
  readonly peakPowerW: number;
  readonly mode: Mode;
  /** Largest share of the averaging window spent sending, above 0 to 1. */
  readonly onAirFraction: number;
}

/** What is asked for in place of the site's own figures; null leaves those. */
export interface TransmissionChoice {
  readonly band: string | null;
  readonly peakPowerW: number | null;
  readonly mode: string | null;
  readonly onAirFraction: number | null;
}

/** Nothing is chosen in place of the site's own figures. */
export const AS_THE_SITE_SAYS: TransmissionChoice = {
  band: null,
  peakPowerW: null,
  mode: null,
  onAirFraction: null,
};

/** Bands that one of the site's two lists names and the other does not, by the names of the band plan. */
export interface UnmatchedBands {
  /** Under `transmit` alone: no plan is made for them. */
  readonly onlyTransmit: readonly string[];
  /** Under `antenna.bands` alone: no field is told for them. */
  readonly onlyAntenna: readonly string[];
}

/** Compares the bands that are sent on with those that the antenna is for; nothing is missed where one list is empty. */
export function unmatchedBands({ antenna, transmit, region, bandEdges }: Site): UnmatchedBands {
  const named = (names: readonly string[]): string[] => [
    ...new Set(names.map((name) => findBand(name, region ?? DEFAULT_REGION, bandEdges).band)),
  ];
  const [sent, built] = [named(transmit.map(({ band }) => band)), named(antenna.bands)];
  if (sent.length === 0 || built.length === 0) return { onlyTransmit: [], onlyAntenna: [] };
  return {
    onlyTransmit: sent.filter((band) => !built.includes(band)),
    onlyAntenna: built.filter((band) => !sent.includes(band)),
  };
}

/**
 * What the station sends: the site's transmissions with the choice in place of their figures, or, where the site
 * has none on the chosen band, the choice alone on that band or on each band of the antenna. An on-air fraction
 * that nobody gives is 1, the careful side.
 *
 * @throws UserError `transmit-missing`, `transmit-power`, `transmit-on-air`, `mode-unknown`, `band-unknown`
 */
export function plannedTransmissions(
  site: Site,
  choice: TransmissionChoice = AS_THE_SITE_SAYS,
): PlannedTransmission[] {
  const region = site.region ?? DEFAULT_REGION;
  const chosen = choice.band === null ? null : findBand(choice.band, region, site.bandEdges).band;
  const own = site.transmit
    .map((transmission, i) => ({ ...transmission, field: `transmit[${i}]` }))
    .filter(({ band }) => chosen === null || findBand(band, region, site.bandEdges).band === chosen);
  const asked = own.length > 0 ? own : fromChoice(site, choice, chosen);
  return asked.map((transmission) =>
    checked(
      {
        band: transmission.band,
        peakPowerW: choice.peakPowerW ?? transmission.peakPowerW,
        mode: choice.mode ?? transmission.mode,
        onAirFraction: choice.onAirFraction ?? transmission.onAirFraction,
      },
      transmission.field,
      findBand(transmission.band, region, site.bandEdges),
    ),
  );
}

function fromChoice(
  site: Site,
  choice: TransmissionChoice,
  chosen: string | null,
): (Transmission & { field: string })[] {
  const bands = chosen === null ? site.antenna.bands : [chosen];
  const { peakPowerW, mode } = choice;
  if (peakPowerW === null && mode === null) throw noRow(site, chosen);
  if (peakPowerW === null) throw missing('transmit.peakPower', 'a power such as "100W"');
  if (mode === null) throw missing('transmit.mode', 'a mode such as "ssb"');
  if (bands.length === 0) throw missing('transmit.band', 'a band such as "40m"');
  return bands.map((band) => ({ band, peakPowerW, mode, onAirFraction: 1, field: 'transmit' }));
}

/** Nothing tells what is sent: says what is there, and how a row for it is written. */
function noRow(site: Site, chosen: string | null): UserError {
  const others = [...new Set(site.transmit.map(({ band }) => band))];
  const has =
    chosen === null
      ? 'is missing'
      : `has no row for ${chosen}${others.length === 0 ? '' : `, only for ${others.join(', ')}`}`;
  const row = `{ "band": "${chosen ?? site.antenna.bands[0] ?? '40m'}", "peakPower": "100W", "mode": "ssb", "onAirFraction": 0.5 }`;
  return new UserError(
    'transmit-missing',
    `${has}: the exposure depends on what is sent; add a row such as ${row} with your own figures, or give --power and --mode`,
    { place: { field: 'transmit' } },
  );
}

function missing(field: string, what: string): UserError {
  return new UserError('transmit-missing', `is missing: the exposure depends on it; give ${what}`, {
    place: { field },
  });
}

function checked(transmission: Transmission, field: string, band: Band): PlannedTransmission {
  const { peakPowerW, mode, onAirFraction } = transmission;
  return {
    band,
    peakPowerW: possiblePowerW(peakPowerW, `${field}.peakPower`),
    mode: findMode(mode, `${field}.mode`),
    onAirFraction: possibleShare(onAirFraction, `${field}.onAirFraction`),
  };
}

/** @throws UserError `transmit-power` for no power and for an absurd one */
export function possiblePowerW(peakPowerW: number, field: string): number {
  if (peakPowerW > 0 && peakPowerW <= ABSURD_POWER_W) return peakPowerW;
  throw new UserError(
    'transmit-power',
    `needs a peak power above 0 W and up to ${ABSURD_POWER_W} W, got ${peakPowerW} W`,
    { place: { field } },
  );
}

/** @throws UserError `transmit-on-air` for a share of the time outside 0 to 1, and for none */
export function possibleShare(onAirFraction: number, field: string): number {
  if (onAirFraction > 0 && onAirFraction <= 1) return onAirFraction;
  throw new UserError(
    'transmit-on-air',
    `needs a share of the averaging time above 0 and up to 1, got ${onAirFraction}${onAirFraction === 0 ? ': leave out a band that is not used' : ''}`,
    { place: { field } },
  );
}
