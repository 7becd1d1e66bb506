import type { Random } from '../random.ts';
import type { TrueAntenna } from './true-antenna.ts';
import type { Variant } from './variants.ts';

const LIGHT = 299_792_458;

/** An antenna for a band, as a variant has them. */
export function drawAntenna(r: Random, middleHz: number, { spread }: Variant, tallest: number): TrueAntenna {
  const wavelengthM = LIGHT / middleHz;
  return {
    heightM: wavelengthM * (spread === 'usual' ? r.between(0.2, 0.26) : drawHeight(r, tallest)),
    radiusM: r.logBetween(0.0008, 0.03) * Math.min(1, wavelengthM / 40),
    conductivitySPerM: r.logBetween(0.001, 0.03),
    relativePermittivity: r.between(6, 25),
    radialCount: r.pick(spread === 'usual' ? [8, 12, 16, 20, 24, 32] : [4, 6, 8, 12, 16, 20, 24, 32, 45, 60]),
    radialLengthM: wavelengthM * r.between(0.08, 0.3),
    radialRadiusM: r.pick([0.0005, 0.0008, 0.0013]),
    strapH: r.between(0.02, 0.5) * 1e-6 * (7e6 / middleHz),
    shuntF: r.between(1, 20) * 1e-12 * (7e6 / middleHz),
    ownLossOhm: r.between(0, 1.5),
    neighbour: { ohm: r.between(0, 0.6), hz: middleHz * r.between(0.7, 1.4), q: r.between(4, 12) },
  };
}

/** Most antennas are near resonance; a tenth are so short that errors of the instrument drown nearly everything. */
function drawHeight(r: Random, tallest: number): number {
  const kind = r.between(0, 1);
  if (kind < 0.6) return r.between(0.22, Math.min(0.26, tallest));
  return kind < 0.9 ? r.between(0.16, tallest) : r.between(0.1, 0.16);
}
