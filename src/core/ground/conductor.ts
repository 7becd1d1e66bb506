import { requirePositive, VACUUM_PERMEABILITY } from './free-space.ts';
import type { ValueStatus } from './named-soils.ts';

/** A metal as a conductor at radio frequencies. */
export interface Conductor {
  readonly resistivityOhmM: number;
  readonly relativePermeability: number;
}

/** A conductor with the source of its figures. */
export interface NamedConductor extends Conductor {
  readonly name: string;
  readonly source: string;
  readonly status: ValueStatus;
}

const IACS = 'IEC 60028: 0.017241 Ω·mm²/m at 20 °C';

/** Annealed copper of the international standard, 58 MS/m. */
export const COPPER: NamedConductor = {
  name: 'copper',
  resistivityOhmM: 1.7241e-8,
  relativePermeability: 1,
  source: IACS,
  status: 'published',
};

/** Metals radials are made of. A plated wire counts as its skin, where most of the current runs. */
export const CONDUCTORS: readonly NamedConductor[] = [
  COPPER,
  metal('tinned-copper', 1.1e-7, 1, 'tin skin', 'memory'),
  metal('aluminium', 2.826e-8, 1, '61 % of IACS copper, electrical grade', 'memory'),
  metal('brass', 6.08e-8, 1, 'pure-metal tables at 20 °C, 70/30 brass', 'published'),
  metal('phosphor-bronze', 1e-7, 1, 'handbook value', 'memory'),
  metal('galvanised-steel', 5.9e-8, 1, 'zinc skin while it lasts; bare steel once it has rusted', 'memory'),
  metal('stainless-18-8', 7.2e-7, 1, 'handbook value, annealed', 'memory'),
  metal('steel', 1.6e-7, 300, 'low-carbon steel; permeability 100 to 1000 at small fields', 'memory'),
];

/** The conductor of that name, or undefined. */
export function findConductor(name: string): NamedConductor | undefined {
  return CONDUCTORS.find((candidate) => candidate.name === name);
}

/** Depth at which the current has fallen to 1/e, δ = √(ρ/(πfμ)), m. @throws UserError `not-positive` */
export function conductorSkinDepthM(conductor: Conductor, frequencyHz: number): number {
  requirePositive(frequencyHz, 'frequency', 'hertz');
  const permeability = VACUUM_PERMEABILITY * conductor.relativePermeability;
  return Math.sqrt(conductor.resistivityOhmM / (Math.PI * frequencyHz * permeability));
}

/** Resistance of a square of a thick sheet, ρ/δ, Ω. @throws UserError `not-positive` */
export function surfaceResistanceOhm(conductor: Conductor, frequencyHz: number): number {
  return conductor.resistivityOhmM / conductorSkinDepthM(conductor, frequencyHz);
}

/** Ratio of radius to skin depth at which the two expansions of the wire's resistance meet. */
const THIN_SKIN = 1.7;

/**
 * Series resistance of a round solid wire, Ω/m: the thin-skin expansion
 * R/R0 = a/2δ + 1/4 + 3δ/32a, or 1 + (a/δ)⁴/48 for wires thinner than 1.7 δ. Within 2 % of the exact
 * Bessel form at the seam and 0.1 % above 4 δ. Stranding, proximity and rust add to it.
 *
 * @throws UserError `not-positive`
 * Source: F. E. Terman, Radio Engineers' Handbook (1943), sec. 2, skin effect of round wires (memory).
 */
export function wireResistanceOhmPerM(conductor: Conductor, radiusM: number, frequencyHz: number): number {
  requirePositive(radiusM, 'radials.diameter', 'metres');
  const direct = conductor.resistivityOhmM / (Math.PI * radiusM ** 2);
  const ratio = radiusM / conductorSkinDepthM(conductor, frequencyHz);
  return ratio < THIN_SKIN ? direct * (1 + ratio ** 4 / 48) : direct * (ratio / 2 + 1 / 4 + 3 / (32 * ratio));
}

function metal(
  name: string,
  resistivityOhmM: number,
  relativePermeability: number,
  source: string,
  status: ValueStatus,
): NamedConductor {
  return { name, resistivityOhmM, relativePermeability, source, status };
}
