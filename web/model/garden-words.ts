import type { SafetyAnswer } from '../../src/formats/page-data.ts';
import type { Reader } from '../reader.ts';

/** What transmitting asks, in a sentence for each thing it asks. */
export function gardenSentence(safety: SafetyAnswer, reader: Reader): string {
  const { bands, places } = safety;
  if (bands.length === 0) return 'The site names no transmission, so that nothing can be told of distances.';
  const far = bands.reduce((a, b) => (b.distanceM > a.distanceM ? b : a));
  const power = `${reader.number(far.peakPowerW, 0)} W ${far.mode.toUpperCase()}`;
  const keepOut = `With ${power} on ${far.band}, people and animals stay ${reader.length(far.distanceM)} from the antenna`;
  return `${keepOut}${placesClause(places)}.`;
}

function placesClause(places: SafetyAnswer['places']): string {
  const names = (verdict: string): string[] => [
    ...new Set(places.filter((place) => place.verdict === verdict).map(({ name }) => name)),
  ];
  const [out, less] = [names('keep out'), names('reduce power')];
  const parts = [
    ...(out.length === 0 ? [] : [`nobody at ${listed(out)} while it sends`]),
    ...(less.length === 0 ? [] : [`less power while somebody is at ${listed(less)}`]),
  ];
  if (parts.length > 0) return `; ${parts.join('; ')}`;
  return places.length === 0
    ? '; the site names no places to judge'
    : '; every place of the lot is outside that';
}

/** Joints that should be looked at, in a sentence. */
export function jointsSentence({ joints }: SafetyAnswer): string {
  const due = joints.filter((joint) => joint.due?.overdue === true).map(({ name }) => name);
  if (due.length > 0)
    return `Look at ${due.length === 1 ? 'this joint' : 'these joints'} now: ${listed(due)}.`;
  return joints.length === 0 ? 'The site names no joints.' : 'No joint is due for a look.';
}

function listed(names: readonly string[]): string {
  return names.length < 2 ? (names[0] ?? '') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;
}
