import { type Band, bandsOfRegion } from '../core/sweep/bands.ts';
import { UserError } from '../core/user-error.ts';
import type { Grid } from './codec/grid.ts';
import type { Identity } from './instrument.ts';

/** A stretch of frequencies. */
export type Range = Pick<Band, 'fromHz' | 'toHz'>;

/** Ends of a range as the user named them; null for those that are to be chosen. */
export interface RangeAsked {
  readonly fromHz: number | null;
  readonly toHz: number | null;
}

/** What is known before a sweep, and what the user wants of it. */
export interface SweepWish {
  readonly band: Band;
  /** The range of the last visit; null when there is none. */
  readonly sweptLast: Range | null;
  /** What that visit showed and this one has to hold: the 2:1 dip, as far as it was seen, and X = 0; null for neither. */
  readonly shownLast: Range | null;
  /** Taken as it is. */
  readonly asked: RangeAsked;
  readonly points: number;
}

/** Points of a sweep where none are asked for. */
export const DEFAULT_POINTS = 101;
/** So much beyond the band, and beyond what the last visit showed, as a part of the band's centre. */
export const MARGIN = 0.1;
/** With less room than this beyond what the last visit showed, the range grows; with more, it stays as it was. */
const LEAST_ROOM = 0.04;
/** No dip that is of use for a band reaches further. */
const MOST_MARGIN = 0.3;
/** The start and stop lie on this raster, so that the same antenna is swept on the same frequencies every time. */
const RASTER_HZ = 50_000;

/**
 * Plans a sweep: the band with a margin, and never less than the last visit's range, so that visits are swept alike;
 * wider where that visit showed less than {@link LEAST_ROOM} beyond its dip. The points are as many as are wanted and
 * the instrument allows.
 *
 * @throws UserError `instrument-range` when the instrument does not cover the band, or the ends that were asked for
 */
export function planSweep(
  { band, sweptLast, shownLast, asked, points }: SweepWish,
  identity: Identity,
): Grid {
  const centreHz = (band.fromHz + band.toHz) / 2;
  const most = widestRange(band);
  let startHz = Math.min(band.fromHz - MARGIN * centreHz, sweptLast?.fromHz ?? Number.POSITIVE_INFINITY);
  let stopHz = Math.max(band.toHz + MARGIN * centreHz, sweptLast?.toHz ?? 0);
  if (shownLast !== null) {
    if (shownLast.fromHz - startHz < LEAST_ROOM * centreHz) startHz = shownLast.fromHz - MARGIN * centreHz;
    if (stopHz - shownLast.toHz < LEAST_ROOM * centreHz) stopHz = shownLast.toHz + MARGIN * centreHz;
  }
  return withinInstrument(
    {
      startHz: asked.fromHz ?? Math.floor(Math.max(startHz, most.fromHz) / RASTER_HZ) * RASTER_HZ,
      stopHz: asked.toHz ?? Math.ceil(Math.min(stopHz, most.toHz) / RASTER_HZ) * RASTER_HZ,
      points,
    },
    { fromHz: asked.fromHz ?? band.fromHz, toHz: asked.toHz ?? band.toHz },
    band.band,
    identity,
  );
}

/**
 * The widest range that is ever chosen for a band: no further than {@link MOST_MARGIN}, and never into another band,
 * which a logbook would take for measured too.
 */
export function widestRange(band: Band): Range {
  const margin = (MOST_MARGIN * (band.fromHz + band.toHz)) / 2;
  let [fromHz, toHz] = [band.fromHz - margin, band.toHz + margin];
  // Region 2, because no other has wider bands.
  for (const other of bandsOfRegion(2)) {
    if (other.toHz <= band.fromHz) fromHz = Math.max(fromHz, other.toHz);
    if (other.fromHz >= band.toHz) toHz = Math.min(toHz, other.fromHz);
  }
  return {
    fromHz: Math.ceil(fromHz / RASTER_HZ) * RASTER_HZ,
    toHz: Math.floor(toHz / RASTER_HZ) * RASTER_HZ,
  };
}

function withinInstrument(
  wanted: Grid,
  needed: Range,
  name: string,
  { lowestHz, highestHz, mostPoints }: Identity,
): Grid {
  const grid = {
    startHz: Math.max(wanted.startHz, lowestHz ?? 1),
    stopHz: Math.min(wanted.stopHz, highestHz ?? Number.POSITIVE_INFINITY),
    points: Math.min(wanted.points, mostPoints ?? Number.POSITIVE_INFINITY),
  };
  if (grid.startHz <= needed.fromHz && grid.stopHz >= needed.toHz && grid.points >= 2) return grid;
  throw new UserError(
    'instrument-range',
    `the instrument measures ${lowestHz ?? '?'} to ${highestHz ?? '?'} Hz in up to ${mostPoints ?? '?'} points: that does not cover ${name} (${needed.fromHz} to ${needed.toHz} Hz)`,
    { kind: 'instrument' },
  );
}
