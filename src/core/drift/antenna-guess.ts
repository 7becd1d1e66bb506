import { monopoleImpedance } from '../ground/monopole.ts';
import { findSoil } from '../ground/named-soils.ts';
import type { Soil } from '../ground/soil.ts';
import type { Site } from '../site.ts';

/** What the model starts from, and how far each figure may be off. */
export interface AntennaGuess {
  readonly heightM: number;
  readonly radiusM: number;
  readonly soil: Soil;
  readonly radialCount: number;
  readonly radialLengthM: number;
  readonly radialRadiusM: number;
  /** Standard deviation of ln height. */
  readonly heightSpread: number;
  /** Which of the figures are the site's own. */
  readonly known: { readonly antenna: boolean; readonly radials: boolean; readonly soil: boolean };
}

const USUAL_COUNT = 24;
/** With no radials the loss is a ground rod's, which no model here has: a few short ones stand in. */
const FEW_FOR_NONE = 2;
const USUAL_RADIUS_M = 0.0125;
const LIGHT_M_PER_S = 299_792_458;
const AVERAGE_SOIL: Soil = findSoil('average') ?? { conductivitySPerM: 0.005, relativePermittivity: 13 };

/** Tape measure, resonance in the sweep, and neither. */
const HEIGHT_SPREAD_KNOWN = 0.015;
const HEIGHT_SPREAD_RESONANT = 0.1;
const HEIGHT_SPREAD_SEARCHED = 0.15;
/** First resonance of a thin radiator, in wavelengths. Source: thin-dipole computations, reference table of heights. */
const RESONANT_WAVELENGTHS = 0.238;

/** What the healthy sweeps show of the antenna's size. */
export interface SeenSize {
  /** First series resonance; null when the sweeps hold none. */
  readonly resonanceHz: number | null;
  /** Middle of a sweep, and the impedance and its slope with ln f there. */
  readonly middleHz: number;
  readonly reactanceOhm: number;
  readonly reactanceSlopeOhm: number;
}

/**
 * The site's own figures, and where it gives none a quarter wave at the resonance (or, where the sweeps hold none, the
 * height and thickness that have the reactance and its slope), 25 mm thick, over 24 radials of
 * 0.15 wavelengths on average soil. The guesses only shape the signatures; the answer says that they were guesses.
 *
 */
export function guessAntenna(site: Site | null, seen: SeenSize): AntennaGuess {
  const antenna = site?.antenna ?? null;
  const radials = site?.radials ?? null;
  const heightM = antenna?.heightM ?? null;
  const wavelengthM = LIGHT_M_PER_S / (seen.resonanceHz ?? seen.middleHz);
  const size =
    heightM !== null
      ? { heightM, radiusM: USUAL_RADIUS_M }
      : seen.resonanceHz !== null
        ? { heightM: RESONANT_WAVELENGTHS * wavelengthM, radiusM: USUAL_RADIUS_M }
        : searchSize(seen);
  const diameterM = antenna?.diameterM ?? null;
  return {
    heightM: size.heightM,
    radiusM: diameterM === null ? size.radiusM : diameterM / 2,
    soil: site?.soil ?? AVERAGE_SOIL,
    radialCount: (radials?.count ?? USUAL_COUNT) || FEW_FOR_NONE,
    radialLengthM: radials?.lengthM ?? 0.15 * wavelengthM,
    radialRadiusM: (radials?.diameterM ?? 0.0016) / 2,
    heightSpread:
      heightM !== null
        ? HEIGHT_SPREAD_KNOWN
        : seen.resonanceHz !== null
          ? HEIGHT_SPREAD_RESONANT
          : HEIGHT_SPREAD_SEARCHED,
    known: {
      antenna: heightM !== null,
      radials: typeof radials?.count === 'number' && radials.count > 0,
      soil: (site?.soil ?? null) !== null,
    },
  };
}

/** Coarse search over 0.06 to 0.38 wavelengths and 1 to 60 mm, by reactance and slope in parts of themselves. */
function searchSize(seen: SeenSize): { heightM: number; radiusM: number } {
  const wavelengthM = LIGHT_M_PER_S / seen.middleHz;
  const step = 1.01;
  let best = { heightM: RESONANT_WAVELENGTHS * wavelengthM, radiusM: USUAL_RADIUS_M, distance: Infinity };
  for (let i = 0; i <= 46; i++) {
    const heightM = wavelengthM * 0.06 * (0.38 / 0.06) ** (i / 46);
    for (const radiusM of [0.0005, 0.001, 0.003, 0.008, 0.02, 0.03]) {
      const at = (frequencyHz: number): number =>
        monopoleImpedance({ heightM, radiusM }, frequencyHz).atLoopOhm.im /
        Math.sin((2 * Math.PI * heightM * frequencyHz) / LIGHT_M_PER_S) ** 2;
      const reactance = at(seen.middleHz);
      const slope = (at(seen.middleHz * step) - reactance) / Math.log(step);
      const distance =
        ((reactance - seen.reactanceOhm) / (Math.abs(seen.reactanceOhm) + 20)) ** 2 +
        ((slope - seen.reactanceSlopeOhm) / (Math.abs(seen.reactanceSlopeOhm) + 20)) ** 2;
      if (distance < best.distance) best = { heightM, radiusM, distance };
    }
  }
  return best;
}
