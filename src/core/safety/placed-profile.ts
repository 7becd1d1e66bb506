import type { Point } from '../site.ts';
import type { Arrangement } from './arrangement.ts';
import {
  type ExposureProfile,
  exposureProfile,
  type HeightSpan,
  largestOverPeople,
  runningMaximum,
  sampledDistances,
} from './exposure-profile.ts';
import type { Filament } from './filament.ts';
import type { FieldMagnitudes } from './radiation.ts';

/** Fields that are not exceeded where the element and every raised radial are at least so far away over the ground. */
export type PlacedProfile = (distanceM: number, wiresM: readonly number[]) => FieldMagnitudes;

/**
 * An upper figure for the fields at a place among raised radials that point anywhere: that of the element with its
 * image, at its distance, and that of each radial with its own image, at the distance of that radial, added as if all
 * were in phase. It falls with every distance, so nearer is never told to be better, and needs no symmetry.
 *
 * The two parts of the field of an open wire that belong to its start are counted in both, so close to the base this
 * is far too high; the profile around the base is the lower figure there.
 *
 * @param share - current of one of the radials over that of one of the arrangement
 */
export function placedProfile(arrangement: Arrangement, heights: HeightSpan, share: number): PlacedProfile {
  const { radial } = arrangement;
  const ofElement = exposureProfile(alone(arrangement, 0), heights);
  if (radial === null) return (distanceM) => ofElement(distanceM);
  const ofRadial = besideRadial(alone(arrangement, 1), radial, heights);
  return (distanceM, wiresM) => {
    let { electricVPerM, magneticAPerM } = ofElement(distanceM);
    for (const wireM of wiresM) {
      const beside = ofRadial(wireM);
      electricVPerM += share * beside.electricVPerM;
      magneticAPerM += share * beside.magneticAPerM;
    }
    return { electricVPerM, magneticAPerM };
  };
}

/** One wire of an arrangement with its image. */
function alone(arrangement: Arrangement, index: number): Arrangement {
  const { all } = arrangement;
  const pair = [all[index], all[index + all.length / 2]] as Filament[];
  return { ...arrangement, radial: null, radialCount: 0, all: pair };
}

const STEP_M = 1;
/** Near the open end the field changes faster. */
const BEFORE_TIP_M = [0.3, 0.2, 0.1, 0];
const ROUND_STEPS = 6;

/** Fields of a radial that points east, with its image, against the distance from any part of it over the ground. */
function besideRadial(pair: Arrangement, radial: Filament, heights: HeightSpan): ExposureProfile {
  const { lengthM } = radial;
  const along = BEFORE_TIP_M.map((m) => Math.max(0, lengthM - m));
  for (let m = 0; m < lengthM; m += STEP_M) along.push(m);
  return runningMaximum(sampledDistances({ radial: null }), (distanceM) => {
    const beside = along.map((m): Point => [m, distanceM]);
    const round = Array.from({ length: 2 * ROUND_STEPS + 1 }, (_, i): Point => {
      const angle = (Math.PI / 2) * (i / ROUND_STEPS);
      const [east, north] = [distanceM * Math.cos(angle), distanceM * Math.sin(angle)];
      return [east > 0 ? lengthM + east : east, north];
    });
    return largestOverPeople(pair, [...beside, ...round], heights);
  });
}
