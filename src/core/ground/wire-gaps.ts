import { COPPER, wireResistanceOhmPerM } from './conductor.ts';
import type { RadialField } from './radial-field.ts';
import { fieldRings } from './rings.ts';
import type { Gap } from './surface-impedance.ts';

/** A field seen as the gaps between neighbouring wires on every ring around the base. */
export interface WireGaps {
  /** Radii at which wires begin, end or turn; rising. Inside the first the wires are a plate. */
  readonly breakpointsM: readonly number[];
  readonly reachM: number;
  readonly wires: number;
  /** Visits the gaps of a ring clockwise. The gap is reused: read it at once. */
  forEach(distanceM: number, visit: (gap: Gap, fromRad: number) => void): void;
}

/**
 * The gap between neighbouring wires on a ring of radius ρ, Δφ wide, is a grid of spacing ρΔφ; so a
 * field of any shape is told by its crossings, and a wide gap tends to bare soil by itself.
 *
 * @throws UserError `bad-route`, `not-positive`
 */
export function wireGaps(field: RadialField, frequencyHz: number): WireGaps {
  const rings = fieldRings(field);
  const radii = field.wires.map((wire) => wire.radiusM);
  const resistances = field.wires.map((wire) =>
    wireResistanceOhmPerM(wire.conductor ?? COPPER, wire.radiusM, frequencyHz),
  );
  const gap = { spacingM: 0, radiusM: 0, resistanceOhmPerM: 0, share: 0 };
  return {
    breakpointsM: rings.breakpointsM,
    reachM: rings.reachM,
    wires: field.wires.length,
    forEach(distanceM, visit) {
      const { count, azimuthRad, wire } = rings.crossings(distanceM);
      let left = wire[count - 1] as number;
      let fromRad = (azimuthRad[count - 1] as number) - 2 * Math.PI;
      for (let i = 0; i < count; i += 1) {
        const right = wire[i] as number;
        const toRad = azimuthRad[i] as number;
        gap.spacingM = distanceM * (toRad - fromRad);
        gap.radiusM = Math.sqrt((radii[left] as number) * (radii[right] as number));
        gap.resistanceOhmPerM = ((resistances[left] as number) + (resistances[right] as number)) / 2;
        gap.share = (toRad - fromRad) / (2 * Math.PI);
        visit(gap, fromRad);
        left = right;
        fromRad = toRad;
      }
    },
  };
}
