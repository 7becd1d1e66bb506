import { type Complex, scale } from '../../core/complex.ts';
import { feedPointImpedanceOhm } from '../../core/ground/feed-point.ts';
import {
  electricalHeightRad,
  isBaseCurrentTold,
  monopoleImpedance,
  TALLEST_WAVELENGTHS,
} from '../../core/ground/monopole.ts';
import { uniformField } from '../../core/ground/radial-field.ts';
import { laidWires } from '../../core/layout/planned-field.ts';
import type { Radial, ReferencePlane } from '../../core/record.ts';
import type { Site } from '../../core/site.ts';
import { feedLineOf, throughLine } from '../../core/sweep/feed-line.ts';
import type { ImpedanceAt } from './simulated-reflection.ts';

/** A quarter wave on 40 m over average soil, where no site tells anything else. */
const DEFAULTS = {
  heightM: 10.1,
  diameterM: 0.025,
  wireDiameterM: 1.6e-3,
  soil: { conductivitySPerM: 0.005, relativePermittivity: 13 },
  radials: { count: 8, lengthM: 6 },
};

/**
 * The antenna of a site over the radials that lie there, as the ground model sees it, at the feed point or through
 * the site's feed line. What the site leaves out is a default, because a demonstration needs something to show.
 */
export function simulatedAntenna(
  site: Site | null,
  laid: readonly Radial[],
  plane: ReferencePlane,
): ImpedanceAt {
  const radiusM = (site?.radials?.diameterM ?? DEFAULTS.wireDiameterM) / 2;
  const monopole = {
    heightM: site?.antenna.heightM ?? DEFAULTS.heightM,
    radiusM: (site?.antenna.diameterM ?? DEFAULTS.diameterM) / 2,
  };
  const ground = {
    monopole,
    soil: site?.soil ?? DEFAULTS.soil,
    field:
      laid.length > 0
        ? { wires: laidWires(laid, radiusM) }
        : uniformField(DEFAULTS.radials.count, DEFAULTS.radials.lengthM, radiusM),
    radiationResistanceOhm: site?.antenna.radiationResistanceOhm ?? undefined,
  };
  const line = site?.feedline == null || plane === 'feedpoint' ? null : feedLineOf(site.feedline);
  const impedanceAt: ImpedanceAt = (frequencyHz) => {
    const shownHz = withinModel(frequencyHz, monopole.heightM);
    const atFeedpoint = isBaseCurrentTold(monopole, shownHz)
      ? feedPointImpedanceOhm({ ...ground, frequencyHz: shownHz })
      : nearHalfWave(monopole, shownHz);
    return line === null
      ? atFeedpoint
      : (throughLine(atFeedpoint, line, frequencyHz, 'shack') ?? atFeedpoint);
  };
  // A site that the model cannot take is told before the first sweep, and not in the midst of it.
  impedanceAt(LIGHT_M_PER_S / (4 * monopole.heightM));
  return impedanceAt;
}

const LIGHT_M_PER_S = 299_792_458;

/**
 * A frequency at which the ground model can take the antenna: above five eighths of a wave it goes on much as half a wave
 * before, and for show that is enough.
 */
function withinModel(frequencyHz: number, heightM: number): number {
  const halfWaveHz = LIGHT_M_PER_S / (2 * heightM);
  const surplus = Math.ceil(frequencyHz / halfWaveHz - 2 * TALLEST_WAVELENGTHS);
  return frequencyHz - Math.max(0, surplus) * halfWaveHz;
}

/**
 * Near a half wave the ground model rightly declines to tell the base impedance. For show, the loop impedance is
 * referred to a base current that never quite vanishes.
 */
function nearHalfWave(monopole: { heightM: number; radiusM: number }, frequencyHz: number): Complex {
  const square = Math.sin(electricalHeightRad(monopole, frequencyHz)) ** 2;
  return scale(monopoleImpedance(monopole, frequencyHz).atLoopOhm, 1 / (square + 0.03));
}
