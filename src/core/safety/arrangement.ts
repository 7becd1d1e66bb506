import { requirePositive, wavenumberPerM } from '../ground/free-space.ts';
import { type Filament, filament, type Vector, type Wire } from './filament.ts';

/** What stands in the garden, as far as its fields go. */
export interface Radiator {
  readonly heightM: number;
  readonly radiusM: number;
  /** Height of the foot over the ground. */
  readonly baseHeightM: number;
  /** Null when the radials lie on or in the ground, which then carries the image of the element. */
  readonly elevated: ElevatedRadials | null;
}

/** Level radials at the height of the base, evenly spread, sharing the base current equally. */
interface ElevatedRadials {
  readonly count: number;
  /** Over how many evenly spread ones the current is taken to divide, where they are known to be bunched. */
  readonly spreadOver?: number;
  readonly lengthM: number;
  readonly radiusM: number;
}

/** More elevated radials than this are modelled as this many, which share the current between fewer. */
export const MOST_MODELLED_RADIALS = 8;

/**
 * Near |sin kL| = 0 the sinusoid has a loop current without bound; what a real wire does there is set by its
 * loss. Our own floor.
 */
export const LEAST_RADIAL_SINE = 0.3;

/** The wires for 1 A at the element's current loop, and their images in perfect ground. */
export interface Arrangement {
  readonly frequencyHz: number;
  readonly element: Filament;
  /** One of `radialCount` equal ones, pointing east; null without elevated radials. */
  readonly radial: Filament | null;
  readonly radialCount: number;
  readonly all: readonly Filament[];
}

/**
 * The element, its elevated radials and all their images. Currents are 1 A at the element's current loop;
 * the base current is sin kh of that and returns through the radials.
 *
 * Perfect ground is the model: over soil the image is weaker, the pattern lower and losses larger, which the
 * efficiency accounts for only as a whole.
 *
 * @throws UserError `not-positive`
 */
export function arrange(radiator: Radiator, frequencyHz: number): Arrangement {
  requirePositive(radiator.heightM, 'antenna.height', 'metres');
  const k = wavenumberPerM(frequencyHz);
  const base: Vector = [0, 0, radiator.baseHeightM];
  const element: Wire = {
    start: base,
    direction: [0, 0, 1],
    lengthM: radiator.heightM,
    radiusM: radiator.radiusM,
    loopA: 1,
  };
  const radials = radiator.elevated === null ? [] : spread(radiator, radiator.elevated, base, k);
  const wires = [element, ...radials];
  const all = [...wires, ...wires.map(imageOf)].map((wire) => filament(wire, frequencyHz));
  return {
    frequencyHz,
    element: all[0] as Filament,
    radial: radials.length === 0 ? null : (all[1] as Filament),
    radialCount: radials.length,
    all,
  };
}

function spread({ heightM }: Radiator, elevated: ElevatedRadials, base: Vector, k: number): Wire[] {
  const count = Math.min(elevated.spreadOver ?? elevated.count, MOST_MODELLED_RADIALS);
  const sine = Math.sin(k * elevated.lengthM);
  const floored = Math.sign(sine || 1) * Math.max(Math.abs(sine), LEAST_RADIAL_SINE);
  const loopA = -Math.sin(k * heightM) / (count * floored);
  return Array.from({ length: count }, (_, i) => {
    const angle = (2 * Math.PI * i) / count;
    return {
      start: base,
      direction: [Math.cos(angle), Math.sin(angle), 0] as const,
      lengthM: elevated.lengthM,
      radiusM: elevated.radiusM,
      loopA,
    };
  });
}

/** Mirrored in the ground with its current reversed: a vertical wire adds to its image, a level one cancels. */
function imageOf(wire: Wire): Wire {
  const [x, y, z] = wire.start;
  const [dx, dy, dz] = wire.direction;
  return { ...wire, start: [x, y, -z], direction: [dx, dy, -dz], loopA: -wire.loopA };
}
