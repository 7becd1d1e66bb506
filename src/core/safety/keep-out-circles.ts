import type { Point, Site } from '../site.ts';
import { type AssessOptions, assessSafety } from './assess.ts';

/** A circle on the lot, in its coordinates, that nobody stays inside of while that band is sent. */
export interface KeepOutCircle {
  readonly centre: Point;
  readonly radiusM: number;
  readonly band: string;
  readonly mode: string;
  readonly peakPowerW: number;
}

/**
 * Keep-out circles around the base, one a transmission, largest first so that a drawing keeps all in sight.
 * Empty where the site has no lot to draw on or sends nothing.
 *
 * @throws UserError as `assessSafety`
 */
export function keepOutCircles(site: Site, options: Partial<AssessOptions> = {}): KeepOutCircle[] {
  if (site.lot === null || (site.transmit.length === 0 && options.choice === undefined)) return [];
  const { base } = site.lot;
  return assessSafety(site, options)
    .bands.map(({ transmission, keepOut }) => ({
      centre: base,
      radiusM: keepOut.distanceM,
      band: transmission.band.band,
      mode: transmission.mode.mode,
      peakPowerW: transmission.peakPowerW,
    }))
    .sort((a, b) => b.radiusM - a.radiusM);
}
