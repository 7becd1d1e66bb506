import type { CarefulFigures } from './careful-figures.ts';
import type { SafetyAnswer } from './page-data/safety-answer.ts';
import { placeName, wireDistance } from './place-reasons.ts';
import { listed } from './words.ts';

type Place = SafetyAnswer['places'][number];

/** A place that is clear although it lies within a distance that everyone else keeps. */
interface Exception {
  readonly place: Place;
  /** The bands on which it is. */
  readonly bands: readonly string[];
}

/**
 * The clear places nearer to the antenna, or to the end of a radial, than the distance to keep: each was judged for
 * itself, where that distance stands for every bearing and for people on the ground.
 */
export function exceptions({ places, bands, wireEnds, radials }: SafetyAnswer): Exception[] {
  const isNear = (place: Place): boolean => {
    const isSent = ({ band, mode }: { readonly band: string; readonly mode: string }) =>
      band === place.band && mode === place.mode;
    const ends = wireEnds.filter((each) => each.end === 'radial end' && isSent(each));
    const wireM = radials.touchableAlong ? place.nearestWireM : place.nearestRadialEndM;
    return (
      place.distanceM < (bands.find(isSent)?.distanceM ?? 0) ||
      ends.some(({ keepOffM }) => (wireM ?? keepOffM) < keepOffM)
    );
  };
  const near = places.filter((place) => place.verdict === 'clear' && isNear(place));
  const names = new Set(near.map(({ name }) => name));
  return [...names].map((name) => {
    const those = near.filter((place) => place.name === name);
    return { place: those[0] as Place, bands: those.map(({ band }) => band) };
  });
}

/** Why each of them may be clear there, so that nobody reads two orders. */
export function exceptionSentences(safety: SafetyAnswer, figures: CarefulFigures): string[] {
  const found = exceptions(safety);
  if (found.length === 0) return [];
  const raised = safety.radials.elevated && safety.radials.unplaced === 0;
  const told = found.map(({ place, bands }) => {
    const all = safety.places.filter(({ name }) => name === place.name).length;
    const on = bands.length === all ? '' : ` on ${listed(bands)}`;
    return `${placeName(place, figures)},${on} ${whyClear(place, raised, figures)}`;
  });
  const one = found.length === 1;
  const bearing = raised ? ', at the worst bearing, under a raised radial' : '';
  return [
    `Distances to keep are for people on the ground${bearing}. Excepted, for ${one ? 'it was judged by itself and is' : 'they were judged by themselves and are'} clear: ${told.join('; ')}. That holds at ${one ? 'this spot' : 'these spots'} alone, and not on the way there.`,
  ];
}

function whyClear(place: Place, raised: boolean, figures: CarefulFigures): string {
  const { distanceM, heightM, nearestWire, nearestWireM } = place;
  const wire =
    nearestWire === null || nearestWireM === null
      ? ''
      : ` and ${wireDistance(nearestWireM, figures)} from radial ${nearestWire}, the nearest`;
  const by = [
    ...(heightM === 0 ? [] : ['at its height']),
    ...(raised ? ['by its distance from each radial'] : []),
  ];
  return `${figures.present(distanceM)} from the antenna${wire}, judged ${by.join(' and ')}`;
}
