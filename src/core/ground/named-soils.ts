import type { Soil } from './soil.ts';

/** How sure a tabled value is: read in the source, or recalled. */
export type ValueStatus = 'published' | 'memory';

/** A soil by name, with where its figures come from. */
export interface NamedSoil extends Soil {
  readonly name: string;
  readonly description: string;
  readonly source: string;
  readonly status: ValueStatus;
}

const TERRAIN = 'terrain table of the amateur handbooks (ARRL Antenna Book type)';
const ITU = 'Recommendation ITU-R P.527';

/** Soils a site may name. Every one is a rough guess of a garden: a fit to measurements outranks it. */
export const NAMED_SOILS: readonly NamedSoil[] = [
  soil('very-good', 'rich pastoral land', 0.0303, 20, TERRAIN, 'published'),
  soil('average', 'pastoral, heavy clay', 0.005, 13, TERRAIN, 'published'),
  soil('rocky', 'rocky, steep', 0.002, 13, TERRAIN, 'published'),
  soil('sandy', 'sandy, dry, coastal', 0.002, 10, TERRAIN, 'published'),
  soil('city', 'city, industrial', 0.001, 5, TERRAIN, 'published'),
  soil('fresh-water', 'fresh water', 0.001, 80, TERRAIN, 'published'),
  soil('sea', 'sea water', 5, 81, TERRAIN, 'published'),
  soil('wet', 'wet ground', 1e-2, 30, ITU, 'memory'),
  soil('medium-dry', 'medium dry ground', 1e-3, 15, ITU, 'memory'),
  soil('very-dry', 'very dry ground', 1e-4, 3, ITU, 'memory'),
];

/** A range that the soil of one garden may move through. */
interface MoistureBand {
  readonly name: string;
  readonly driest: Soil;
  readonly wettest: Soil;
  readonly note: string;
}

/**
 * How far moisture may move a soil. The sign of its effect on earth resistance is not fixed (rain
 * and frost have both raised it), so the state of the ground belongs with every visit.
 */
export const MOISTURE_BANDS: readonly MoistureBand[] = [
  {
    name: 'garden-season',
    driest: { conductivitySPerM: 0.002, relativePermittivity: 8 },
    wettest: { conductivitySPerM: 0.015, relativePermittivity: 22 },
    note: 'a dry summer to a wet winter in one temperate garden; our working assumption, not a published one',
  },
  {
    name: 'any-ground',
    driest: { conductivitySPerM: 1e-4, relativePermittivity: 3 },
    wettest: { conductivitySPerM: 1e-2, relativePermittivity: 30 },
    note: `very dry to wet ground, ${ITU} (memory)`,
  },
];

/** The soil of that name, or undefined. */
export function findSoil(name: string): NamedSoil | undefined {
  return NAMED_SOILS.find((candidate) => candidate.name === name);
}

function soil(
  name: string,
  description: string,
  conductivitySPerM: number,
  relativePermittivity: number,
  source: string,
  status: ValueStatus,
): NamedSoil {
  return { name, description, conductivitySPerM, relativePermittivity, source, status };
}
