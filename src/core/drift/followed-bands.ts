import type { VisitRecord } from '../record.ts';
import type { Site } from '../site.ts';
import { type Band, bandCentreHz, bandsOfRegion, DEFAULT_REGION } from '../sweep/bands.ts';
import { visitsInBand } from '../visits-in-band.ts';

const LIGHT_M_PER_S = 299_792_458;

/**
 * The bands in which a logbook is watched: those of the site that were measured; where the site names none of them, the
 * bands that the sweeps reach into. A sweep over many bands is then watched in the one nearest to the quarter wave of
 * the site, or in the lowest; one outside of every band, over its own range.
 *
 * @returns rising in frequency; empty when no visit holds a sweep of the antenna
 */
export function followedBands(
  { antenna, region, bandEdges }: Pick<Site, 'antenna' | 'region' | 'bandEdges'>,
  visits: readonly VisitRecord[],
): Band[] {
  const known = bandsOfRegion(region ?? DEFAULT_REGION, bandEdges);
  const own = known.filter(
    (band) => antenna.bands.includes(band.band) && visitsInBand(visits, band).length > 0,
  );
  if (own.length > 0) return own;
  const quarterWaveHz = antenna.heightM === null ? 0 : LIGHT_M_PER_S / 4 / antenna.heightM;
  const found = new Map<string, Band>();
  for (const range of rangesOf(visits)) {
    const [nearest] = known
      .filter((band) => band.fromHz < range.toHz && band.toHz > range.fromHz)
      .sort((a, b) => Math.abs(bandCentreHz(a) - quarterWaveHz) - Math.abs(bandCentreHz(b) - quarterWaveHz));
    const band = nearest ?? range;
    found.set(band.band, band);
  }
  return [...found.values()].sort((a, b) => a.fromHz - b.fromHz);
}

/** Each range that was swept, under a name of its own. */
function rangesOf(visits: readonly VisitRecord[]): Band[] {
  const ranges = new Map<string, Band>();
  for (const { shots } of visits) {
    for (const { target, fromHz, toHz } of shots) {
      const band = `${(fromHz / 1e6).toFixed(3)}-${(toHz / 1e6).toFixed(3)} MHz`;
      if (target === 'antenna') ranges.set(band, { band, fromHz, toHz });
    }
  }
  return [...ranges.values()];
}
