import { wireResistanceOhmPerM } from './conductor.ts';
import type { RadialField } from './radial-field.ts';
import type { Soil } from './soil.ts';
import { addGap, clearRing, type GroundSurface, groundSurface, type Ring } from './surface-impedance.ts';
import { asUniform, type UniformRadials } from './uniform-field.ts';
import { wireGaps } from './wire-gaps.ts';

/** The surface impedance of a field on soil, averaged around each ring. */
export interface MeanSheet {
  /** Where it is not smooth; it is a metal plate from the base to the first. */
  readonly breakpointsM: readonly number[];
  readonly reachM: number;
  /** Overwrites `ring` with the mean at a distance inside the reach. */
  at(distanceM: number, ring: Ring): void;
}

/** Takes the fast path of an even circle, which has one kind of gap, where it can. */
export function meanSheet(field: RadialField, soil: Soil, frequencyHz: number): MeanSheet {
  const surface = groundSurface(soil, frequencyHz);
  const uniform = asUniform(field);
  return uniform === null
    ? anySheet(field, surface, frequencyHz)
    : uniformSheet(uniform, surface, frequencyHz);
}

/** Any field, gap by gap; also the check on the fast path. */
export function anySheet(field: RadialField, surface: GroundSurface, frequencyHz: number): MeanSheet {
  const gaps = wireGaps(field, frequencyHz);
  return {
    breakpointsM: gaps.breakpointsM,
    reachM: gaps.reachM,
    at(distanceM, ring) {
      clearRing(ring);
      gaps.forEach(distanceM, (gap) => addGap(surface, gap, gap.share, ring));
    },
  };
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
      clearRing(ring);
      gap.spacingM = (2 * Math.PI * distanceM) / count;
      addGap(surface, gap, 1, ring);
    },
  };
}
