import type { Band } from '../core/sweep/bands.ts';
import { UserError } from '../core/user-error.ts';
import type { Grid } from './codec/grid.ts';
import type { Identity } from './instrument.ts';

/** What is known before a sweep, and what the user wants of it. */
export interface SweepWish {
  readonly band: Band;
  /** Where X was zero last time; null when no visit tells. */
  readonly resonanceHz: number | null;
  readonly points: number;
}

/** Points of a sweep where none are asked for. */
export const DEFAULT_POINTS = 101;

/** The start and stop lie on this raster, so that the same antenna is swept on the same frequencies every time. */
const RASTER_HZ = 50_000;
/** Without a known resonance this much beyond the band is swept, as a part of its centre. */
export const UNKNOWN_MARGIN = 0.1;
/** Enough beyond the band for the edges of a dip. */
const BAND_MARGIN = 0.02;
/** Enough on both sides of the resonance for its slopes, and for it to move until the next visit. */
const RESONANCE_MARGIN = 0.04;

/**
 * Plans a sweep: the band, the last known resonance, and enough around both; without a known resonance wide enough to
 * find it. The points are as many as are wanted and the instrument allows.
 *
 * @throws UserError `instrument-range` when the instrument does not cover the band
 */
export function planSweep({ band, resonanceHz, points }: SweepWish, identity: Identity): Grid {
  const centreHz = (band.fromHz + band.toHz) / 2;
  const margin = resonanceHz === null ? UNKNOWN_MARGIN : BAND_MARGIN;
  let startHz = band.fromHz - margin * centreHz;
  let stopHz = band.toHz + margin * centreHz;
  if (resonanceHz !== null) {
    startHz = Math.min(startHz, resonanceHz * (1 - RESONANCE_MARGIN));
    stopHz = Math.max(stopHz, resonanceHz * (1 + RESONANCE_MARGIN));
  }
  return withinInstrument(
    {
      startHz: Math.floor(startHz / RASTER_HZ) * RASTER_HZ,
      stopHz: Math.ceil(stopHz / RASTER_HZ) * RASTER_HZ,
      points,
    },
    band,
    identity,
  );
}

function withinInstrument(wanted: Grid, band: Band, { lowestHz, highestHz, mostPoints }: Identity): Grid {
  const grid = {
    startHz: Math.max(wanted.startHz, lowestHz ?? 1),
    stopHz: Math.min(wanted.stopHz, highestHz ?? Number.POSITIVE_INFINITY),
    points: Math.min(wanted.points, mostPoints ?? Number.POSITIVE_INFINITY),
  };
  if (grid.startHz <= band.fromHz && grid.stopHz >= band.toHz && grid.points >= 2) return grid;
  throw new UserError(
    'instrument-range',
    `the instrument measures ${lowestHz ?? '?'} to ${highestHz ?? '?'} Hz in up to ${mostPoints ?? '?'} points: that does not cover ${band.band} (${band.fromHz} to ${band.toHz} Hz)`,
    { kind: 'instrument' },
  );
}
