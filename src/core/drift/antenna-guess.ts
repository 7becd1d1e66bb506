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

const LIGHT_M_PER_S = 299_792_458;
const AVERAGE_SOIL: Soil = findSoil('average') ?? { conductivitySPerM: 0.005, relativePermittivity: 13 };

/** A measured tape measure, and a height told by the resonance alone. */
const HEIGHT_SPREAD_KNOWN = 0.015;
const HEIGHT_SPREAD_GUESSED = 0.1;
/** First resonance of a thin radiator, in wavelengths. Source: thin-dipole computations, reference table of heights. */
const RESONANT_WAVELENGTHS = 0.238;

/**
 * The site's own figures, and where it gives none a quarter wave at the resonance, 25 mm thick, over 24 radials of
 * 0.15 wavelengths on average soil. The guesses only shape the signatures; the answer says that they were guesses.
 *
 * @param resonanceHz - first series resonance of the healthy sweeps, or the middle of what was swept
 */
export function guessAntenna(site: Site | null, resonanceHz: number): AntennaGuess {
  const antenna = site?.antenna ?? null;
  const radials = site?.radials ?? null;
  const heightM = antenna?.heightM ?? null;
  const wavelengthM = LIGHT_M_PER_S / resonanceHz;
  return {
    heightM: heightM ?? RESONANT_WAVELENGTHS * wavelengthM,
    radiusM: (antenna?.diameterM ?? 0.025) / 2,
    soil: site?.soil ?? AVERAGE_SOIL,
    radialCount: radials?.count ?? 24,
    radialLengthM: radials?.lengthM ?? 0.15 * wavelengthM,
    radialRadiusM: (radials?.diameterM ?? 0.0016) / 2,
    heightSpread: heightM === null ? HEIGHT_SPREAD_GUESSED : HEIGHT_SPREAD_KNOWN,
    known: {
      antenna: heightM !== null,
      radials: typeof radials?.count === 'number' && radials.count > 0,
      soil: (site?.soil ?? null) !== null,
    },
  };
}
