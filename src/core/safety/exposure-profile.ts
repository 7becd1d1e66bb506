import type { Arrangement } from './arrangement.ts';
import { type FieldMagnitudes, fieldsPerLoopAmpere } from './radiation.ts';

/** The nearest that the fields are asked for, m from the axis of the element. */
export const NEAREST_M = 0.05;

/** How tall a person is taken to be: fields are the largest over this height. */
export const PERSON_HEIGHT_M = 2;

/** The stretch of heights over the ground that a person may fill. */
export interface HeightSpan {
  readonly fromM: number;
  readonly toM: number;
}

/**
 * Where a person may be whose place is given a height: that height may be the floor they stand on or what they
 * lean on, so from one person's height under it to one over it, and never under the ground.
 */
export function personAt(heightM: number): HeightSpan {
  return { fromM: Math.max(0, heightM - PERSON_HEIGHT_M), toM: heightM + PERSON_HEIGHT_M };
}

/** Largest fields at a distance or farther out, rms, for 1 A rms at the current loop. Never rises with distance. */
export type ExposureProfile = (distanceM: number) => FieldMagnitudes;

const STEP = 1.05;
const FARTHEST_M = 200;
const HEIGHT_STEP_M = 0.25;
const AZIMUTHS = 3;

/**
 * The largest fields around the antenna against horizontal distance from its base.
 *
 * Sampled over the height of a person, over bearings from along a radial to between two, and outwards in steps
 * of 5 %. The running maximum from far to near makes it monotone (tall elements and raised radials are not), so
 * that nearer is never told to be better. Between samples it follows a power law, beyond the last 1/distance.
 */
export function exposureProfile(arrangement: Arrangement, heights: HeightSpan): ExposureProfile {
  const count = Math.ceil(Math.log(FARTHEST_M / NEAREST_M) / Math.log(STEP)) + 1;
  const electric = new Float64Array(count);
  const magnetic = new Float64Array(count);
  for (let i = count - 1; i >= 0; i--) {
    const here = largestOverPerson(arrangement, NEAREST_M * STEP ** i, heights);
    electric[i] = Math.max(here.electricVPerM, electric[i + 1] ?? 0);
    magnetic[i] = Math.max(here.magneticAPerM, magnetic[i + 1] ?? 0);
  }
  return (distanceM) => {
    const place = Math.max(0, Math.log(distanceM / NEAREST_M) / Math.log(STEP));
    const last = count - 1;
    if (place >= last) {
      const fall = (NEAREST_M * STEP ** last) / distanceM;
      return {
        electricVPerM: (electric[last] as number) * fall,
        magneticAPerM: (magnetic[last] as number) * fall,
      };
    }
    return { electricVPerM: between(electric, place), magneticAPerM: between(magnetic, place) };
  };
}

function between(column: Float64Array, place: number): number {
  const i = Math.floor(place);
  const near = column[i] as number;
  const far = column[i + 1] as number;
  return near * (far / near) ** (place - i);
}

function largestOverPerson(
  arrangement: Arrangement,
  distanceM: number,
  { fromM, toM }: HeightSpan,
): FieldMagnitudes {
  const levels = Math.ceil((toM - fromM) / HEIGHT_STEP_M);
  const bearings = arrangement.radialCount === 0 ? 1 : AZIMUTHS;
  let electricVPerM = 0;
  let magneticAPerM = 0;
  const scratch = new Float64Array(12);
  for (let b = 0; b < bearings; b++) {
    const bearing = b === 0 ? 0 : (Math.PI / arrangement.radialCount) * (b / (bearings - 1));
    const east = distanceM * Math.cos(bearing);
    const north = distanceM * Math.sin(bearing);
    for (let l = 0; l <= levels; l++) {
      const up = fromM + ((toM - fromM) * l) / levels;
      const here = fieldsPerLoopAmpere(arrangement, east, north, up, scratch);
      electricVPerM = Math.max(electricVPerM, here.electricVPerM);
      magneticAPerM = Math.max(magneticAPerM, here.magneticAPerM);
    }
  }
  return { electricVPerM, magneticAPerM };
}
