import { COPPER, wireResistanceOhmPerM } from './conductor.ts';
import type { RadialField } from './radial-field.ts';
import { fieldRings } from './rings.ts';
import type { Soil } from './soil.ts';
import { addGap, type GroundSurface, groundSurface, type Ring } from './surface-impedance.ts';
import { asUniform, type UniformRadials } from './uniform-field.ts';

/** The surface impedance of a field on soil, averaged around each ring. */
export interface MeanSheet {
  /** Where it is not smooth; it is a metal plate from the base to the first. */
  readonly breakpointsM: readonly number[];
  readonly reachM: number;
  /** Overwrites `ring` with the mean at a distance inside the reach. */
  at(distanceM: number, ring: Ring): void;
}

/**
 * The gap between neighbouring wires on a ring of radius ρ, Δφ wide, is a grid of spacing ρΔφ; so a
 * field of any shape is told by its crossings, and a wide gap tends to bare soil by itself. An even
 * circle has one kind of gap, which is the fast path.
 */
export function meanSheet(field: RadialField, soil: Soil, frequencyHz: number): MeanSheet {
  const surface = groundSurface(soil, frequencyHz);
  const uniform = asUniform(field);
  return uniform === null
    ? anySheet(field, surface, frequencyHz)
    : uniformSheet(uniform, surface, frequencyHz);
}

function uniformSheet(
  { count, lengthM, radiusM, conductor }: UniformRadials,
  surface: GroundSurface,
  frequencyHz: number,
): MeanSheet {
  const resistanceOhmPerM = wireResistanceOhmPerM(conductor, radiusM, frequencyHz);
  const gap = { spacingM: 0, radiusM, resistanceOhmPerM, share: 1 };
  return {
    breakpointsM: [Math.min(count * radiusM, lengthM / 2), lengthM],
    reachM: lengthM,
    at(distanceM, ring) {
      clear(ring);
      gap.spacingM = (2 * Math.PI * distanceM) / count;
      addGap(surface, gap, ring);
    },
  };
}

/** Any field, gap by gap; also the check on the fast path. */
export function anySheet(field: RadialField, surface: GroundSurface, frequencyHz: number): MeanSheet {
  const rings = fieldRings(field);
  const radii = field.wires.map((wire) => wire.radiusM);
  const resistances = field.wires.map((wire) =>
    wireResistanceOhmPerM(wire.conductor ?? COPPER, wire.radiusM, frequencyHz),
  );
  const gap = { spacingM: 0, radiusM: 0, resistanceOhmPerM: 0, share: 0 };
  return {
    breakpointsM: rings.breakpointsM,
    reachM: rings.reachM,
    at(distanceM, ring) {
      clear(ring);
      const { count, azimuthRad, wire } = rings.crossings(distanceM);
      let left = wire[count - 1] as number;
      let leftRad = (azimuthRad[count - 1] as number) - 2 * Math.PI;
      for (let i = 0; i < count; i += 1) {
        const right = wire[i] as number;
        const rightRad = azimuthRad[i] as number;
        gap.spacingM = distanceM * (rightRad - leftRad);
        gap.radiusM = Math.sqrt((radii[left] as number) * (radii[right] as number));
        gap.resistanceOhmPerM = ((resistances[left] as number) + (resistances[right] as number)) / 2;
        gap.share = (rightRad - leftRad) / (2 * Math.PI);
        addGap(surface, gap, ring);
        left = right;
        leftRad = rightRad;
      }
    },
  };
}

function clear(ring: Ring): void {
  ring.resistanceOhm = 0;
  ring.reactanceOhm = 0;
  ring.wireOhm = 0;
}
