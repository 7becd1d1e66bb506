import {
  reflectionOfSwr,
  reflectionSize,
  returnLossDb,
  swrOfReflection,
} from '../../src/core/sweep/reflection.ts';
import type { AnySweep } from '../../src/core/sweep/sweep.ts';

/** What a sweep says at one frequency. */
export interface Spot {
  readonly swr: number | null;
  readonly returnLossDb: number | null;
  readonly resistanceOhm: number | null;
  readonly reactanceOhm: number | null;
}

/** Index of the place nearest to a wanted one; 0 where there is but one. @param places - rising */
export function nearestIndex(places: ArrayLike<number>, wanted: number): number {
  const above = Math.max(1, firstAtLeast(places, wanted));
  const below = above - 1;
  const last = places.length - 1;
  if (above > last) return last;
  return wanted - (places[below] as number) < (places[above] as number) - wanted ? below : above;
}

/** The impedance is linear between two points, as everywhere in the program; null outside the sweep. */
export function spotAt(sweep: AnySweep, hz: number): Spot | null {
  const { frequencyHz } = sweep;
  const last = frequencyHz.length - 1;
  if (!(hz >= (frequencyHz[0] as number) && hz <= (frequencyHz[last] as number))) return null;
  const above = Math.max(1, firstAtLeast(frequencyHz, hz));
  const below = above - 1;
  const f = frequencyHz[below] as number;
  const t = (hz - f) / ((frequencyHz[above] as number) - f);
  const between = (column: Float64Array): number =>
    t === 1 ? (column[above] as number) : (column[below] as number) * (1 - t) + (column[above] as number) * t;
  if (sweep.kind === 'swr') {
    const swr = between(sweep.swr);
    return Number.isNaN(swr)
      ? { swr: null, returnLossDb: null, resistanceOhm: null, reactanceOhm: null }
      : { swr, returnLossDb: returnLossDb(reflectionOfSwr(swr)), resistanceOhm: null, reactanceOhm: null };
  }
  const resistanceOhm = between(sweep.resistanceOhm);
  const reactanceOhm = between(sweep.reactanceOhm);
  const size = reflectionSize(resistanceOhm, reactanceOhm, sweep.referenceOhm);
  return { swr: swrOfReflection(size), returnLossDb: returnLossDb(size), resistanceOhm, reactanceOhm };
}

/** Index of the first place at or above one; the length where there is none. */
function firstAtLeast(places: ArrayLike<number>, wanted: number): number {
  let low = 0;
  let high = places.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((places[middle] as number) < wanted) low = middle + 1;
    else high = middle;
  }
  return low;
}
