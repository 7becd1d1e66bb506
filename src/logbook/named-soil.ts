import type { SiteSoil } from '../core/site.ts';

/** Soils a site may name. */
const NAMED: Readonly<Record<string, readonly [conductivitySPerM: number, relativePermittivity: number]>> = {
  'very-good': [0.0303, 20],
  average: [0.005, 13],
  rocky: [0.002, 13],
  sandy: [0.002, 10],
  city: [0.001, 5],
  'fresh-water': [0.001, 80],
  sea: [5, 81],
  wet: [1e-2, 30],
  'medium-dry': [1e-3, 15],
  'very-dry': [1e-4, 3],
};

export const SOIL_NAMES: readonly string[] = Object.keys(NAMED);

export function namedSoil(name: string): SiteSoil {
  const [conductivitySPerM, relativePermittivity] = NAMED[name] as readonly [number, number];
  return { name, conductivitySPerM, relativePermittivity };
}
