import type { Site } from '../site.ts';
import { type Band, bandCentreHz, DEFAULT_REGION, findBand } from '../sweep/bands.ts';
import { monopoleImpedance } from './monopole.ts';

/** What a site says of the radiation resistance on a band. */
export interface StatedResistance {
  /** Referred to the base, ohm; null where the site states none that can hold on this band. */
  readonly radiationResistanceOhm: number | null;
  /** Why the stated one is, or is not, taken; null where there is nothing to say. */
  readonly note: string | null;
}

/**
 * The radiation resistance that a site states, on the one of its bands where it can be true. One figure cannot hold on
 * two bands, for the base resistance of a radiator grows about with the square of the frequency: it is taken on the band
 * where a straight radiator of that height comes nearest to it, and on the others the computed one stands.
 *
 * @param band - the band asked about, which need not be one of the site's
 */
export function statedResistance(
  { antenna, region, bandEdges }: Pick<Site, 'antenna' | 'region' | 'bandEdges'>,
  band: Band,
): StatedResistance {
  const { radiationResistanceOhm, heightM } = antenna;
  const all = [...new Set([...antenna.bands, band.band])];
  if (radiationResistanceOhm === null || heightM === null || all.length === 1) {
    return { radiationResistanceOhm, note: null };
  }
  const off = all.map((name) => {
    const own = name === band.band ? band : findBand(name, region ?? DEFAULT_REGION, bandEdges);
    return Math.abs(Math.log(straightOhm(heightM, bandCentreHz(own)) / radiationResistanceOhm));
  });
  const fits = all[off.indexOf(Math.min(...off))] as string;
  return {
    radiationResistanceOhm: fits === band.band ? radiationResistanceOhm : null,
    note: `antenna.radiationResistance (${radiationResistanceOhm} ohm) can be true on one band only, and of the site’s bands ${fits} suits the antenna’s height best: it is used there, and on any other band that of a straight radiator is computed; a site file for each band lets you state each`,
  };
}

/** Base resistance of a straight radiator, ohm; beyond measure near a half wave. The thickness does not count. */
function straightOhm(heightM: number, frequencyHz: number): number {
  const { atBaseOhm } = monopoleImpedance({ heightM, radiusM: heightM / 1000 }, frequencyHz);
  return atBaseOhm?.re ?? Number.MAX_VALUE;
}
