import type { Complex } from '../complex.ts';
import { requirePositive, VACUUM_PERMEABILITY } from './free-space.ts';
import { type Soil, soilImpedanceOhm } from './soil.ts';

/** What the surface impedance of a wire grid on soil needs at one frequency. */
export interface GroundSurface {
  /** η of the bare soil. */
  readonly soilOhm: Complex;
  /** ωμ0/2π, Ω/m. */
  readonly gridOhmPerM: number;
}

/** What of the surface impedance depends on soil and frequency alone. */
export function groundSurface(soil: Soil, frequencyHz: number): GroundSurface {
  return { soilOhm: soilImpedanceOhm(soil, frequencyHz), gridOhmPerM: frequencyHz * VACUUM_PERMEABILITY };
}

/**
 * Surface reactance of a grid of thin parallel wires, (ωμ0d/2π)·ln(d/2πa), Ω. Wires nearer than a
 * metal sheet would leave them, d ≤ 2πa, count as the sheet: 0.
 *
 * @param spacingM - d between neighbours
 * @param radiusM - a of the wires
 * Source: J. R. Wait and W. A. Pope, Appl. Sci. Res. B 4 (1954).
 */
export function gridReactanceOhm(surface: GroundSurface, spacingM: number, radiusM: number): number {
  const ratio = spacingM / (2 * Math.PI * radiusM);
  return ratio > 1 ? surface.gridOhmPerM * spacingM * Math.log(ratio) : 0;
}

/** The grid and the soil side by side: Zg·η/(Zg + η), Ω. @throws UserError `not-positive` */
export function griddedSoilImpedanceOhm(
  soil: Soil,
  frequencyHz: number,
  spacingM: number,
  radiusM: number,
): Complex {
  requirePositive(spacingM, 'spacing', 'metres');
  requirePositive(radiusM, 'radials.diameter', 'metres');
  const ring = emptyRing();
  addGap(groundSurface(soil, frequencyHz), { spacingM, radiusM, resistanceOhmPerM: 0, share: 1 }, 1, ring);
  return { re: ring.resistanceOhm, im: ring.reactanceOhm };
}

/** Mean surface impedance of a ring around the base, Ω; summed in place in the hot path. */
export interface Ring {
  /** Of wires and soil side by side. */
  resistanceOhm: number;
  reactanceOhm: number;
  /** What the metal of the wires adds to the resistance. */
  wireOhm: number;
}

/** A ring of zeros, to be filled again and again. */
export function emptyRing(): Ring {
  return { resistanceOhm: 0, reactanceOhm: 0, wireOhm: 0 };
}

/** Sets a ring to zero in place. */
export function clearRing(ring: Ring): void {
  ring.resistanceOhm = 0;
  ring.reactanceOhm = 0;
  ring.wireOhm = 0;
}

/** The strip between two neighbouring wires on a ring around the base. */
export interface Gap {
  readonly spacingM: number;
  readonly radiusM: number;
  readonly resistanceOhmPerM: number;
  /** Part of the ring that it covers. */
  readonly share: number;
}

/**
 * Adds the surface impedance of a gap to a ring with a weight: its share where the ring's mean is
 * wanted. The wires' own part is R′d·|η/(Zg + η)|², their surface resistance times the share of the
 * current that they carry.
 */
export function addGap(surface: GroundSurface, gap: Gap, weight: number, ring: Ring): void {
  const { re: resistance, im: reactance } = surface.soilOhm;
  const grid = gridReactanceOhm(surface, gap.spacingM, gap.radiusM);
  const together = grid + reactance;
  const part = weight / (resistance * resistance + together * together);
  ring.resistanceOhm += part * grid * grid * resistance;
  ring.reactanceOhm += part * grid * (resistance * resistance + reactance * together);
  ring.wireOhm +=
    part * (resistance * resistance + reactance * reactance) * gap.resistanceOhmPerM * gap.spacingM;
}
