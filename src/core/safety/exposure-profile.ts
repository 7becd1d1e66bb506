import type { Point } from '../site.ts';
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
/** Round the tips of raised radials fields change within half a metre. */
const TIP_STEP_M = 0.1;
/** Bearings over a half circle, at least; a sector between two radials is seen from three or more. */
const BEARINGS = 12;
/** Raises every field by what may hide between the samples. */
const SAMPLING_MARGIN = 1.01;

/**
 * The largest fields around the antenna against horizontal distance from its base.
 *
 * Sampled over the height of a person, over bearings from along a radial to between two, and outwards in steps
 * of 5 %, finer round the tips of raised radials. The running maximum from far to near makes it monotone (tall
 * elements and raised radials are not), so that nearer is never told to be better. Between samples it follows a
 * power law, beyond the last 1/distance; one per cent is added for what hides between them.
 */
export function exposureProfile(arrangement: Arrangement, heights: HeightSpan): ExposureProfile {
  return runningMaximum(sampledDistances(arrangement), (distanceM) =>
    largestOverPerson(arrangement, distanceM, heights),
  );
}

/**
 * What is largest at a distance or farther out, from samples.
 *
 * @param distanceM - rising, length 2 or more
 */
export function runningMaximum(
  distanceM: Float64Array,
  largestAt: (distanceM: number) => FieldMagnitudes,
): ExposureProfile {
  const last = distanceM.length - 1;
  const electric = new Float64Array(last + 1);
  const magnetic = new Float64Array(last + 1);
  for (let i = last; i >= 0; i--) {
    const here = largestAt(distanceM[i] as number);
    electric[i] = Math.max(here.electricVPerM, electric[i + 1] ?? 0);
    magnetic[i] = Math.max(here.magneticAPerM, magnetic[i + 1] ?? 0);
  }
  return (askedM) => {
    const next = distanceM.findIndex((sampledM) => sampledM > askedM);
    if (next === 0) return { electricVPerM: electric[0] as number, magneticAPerM: magnetic[0] as number };
    const i = next < 0 ? last : next - 1;
    const fromM = distanceM[i] as number;
    const along = next < 0 ? 0 : Math.log(askedM / fromM) / Math.log((distanceM[next] as number) / fromM);
    const follow = (column: Float64Array): number => {
      const near = column[i] as number;
      return next < 0 ? (near * fromM) / askedM : near * ((column[next] as number) / near) ** along;
    };
    return { electricVPerM: follow(electric), magneticAPerM: follow(magnetic) };
  };
}

/** Rising, from {@link NEAREST_M} to {@link FARTHEST_M}. */
export function sampledDistances({ radial }: Pick<Arrangement, 'radial'>): Float64Array {
  const distances: number[] = [];
  for (let m = NEAREST_M; m < FARTHEST_M; m *= STEP) distances.push(m);
  distances.push(FARTHEST_M);
  if (radial !== null) {
    const tipM = radial.lengthM;
    for (let m = Math.max(NEAREST_M, tipM - 1); m < tipM + 4; m += TIP_STEP_M) distances.push(m);
  }
  return Float64Array.from(distances).sort();
}

function largestOverPerson(
  arrangement: Arrangement,
  distanceM: number,
  heights: HeightSpan,
): FieldMagnitudes {
  const { radialCount } = arrangement;
  const bearings = radialCount === 0 ? 1 : Math.max(3, Math.ceil(BEARINGS / radialCount) + 1);
  const points = Array.from({ length: bearings }, (_, b): Point => {
    const bearing = b === 0 ? 0 : (Math.PI / radialCount) * (b / (bearings - 1));
    return [distanceM * Math.cos(bearing), distanceM * Math.sin(bearing)];
  });
  return largestOverPeople(arrangement, points, heights);
}

/** The largest fields over people at any of some points, which lie east and north of the base. */
export function largestOverPeople(
  arrangement: Arrangement,
  points: readonly Point[],
  { fromM, toM }: HeightSpan,
): FieldMagnitudes {
  const levels = Math.ceil((toM - fromM) / HEIGHT_STEP_M);
  let electricVPerM = 0;
  let magneticAPerM = 0;
  const scratch = new Float64Array(12);
  for (const [east, north] of points) {
    for (let l = 0; l <= levels; l++) {
      const up = fromM + ((toM - fromM) * l) / levels;
      const here = fieldsPerLoopAmpere(arrangement, east, north, up, scratch);
      electricVPerM = Math.max(electricVPerM, here.electricVPerM);
      magneticAPerM = Math.max(magneticAPerM, here.magneticAPerM);
    }
  }
  return { electricVPerM: SAMPLING_MARGIN * electricVPerM, magneticAPerM: SAMPLING_MARGIN * magneticAPerM };
}
