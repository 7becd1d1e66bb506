import type { CarefulFigures } from './careful-figures.ts';
import { numbered } from './numbered.ts';
import type { SafetyAnswer } from './page-data/safety-answer.ts';
import { listed, plural } from './words.ts';
import { byVerdict } from './worst-verdicts.ts';

/** What was left out because it is planned and not laid yet, and what it will change; nothing where none is. */
export function plannedSentences({ planned, radials }: SafetyAnswer, { kept }: CarefulFigures): string[] {
  if (planned === null) return [];
  const { numbers, places, bands, radialKeepOffM, endsNearBorder } = planned;
  const one = numbers.length === 1;
  const near = endsNearBorder.length === 1 ? 'ends' : 'end';
  const changes = [
    ...byVerdict(places).map(({ verdict, names }) => `${verdict}: ${listed(names)}`),
    ...(places.length === 0 ? ['no place that the site names gets a worse verdict'] : []),
    ...bands.map(({ band, distanceM }) => `on ${band} nobody stays within ${kept(distanceM)} of the antenna`),
    ...(radialKeepOffM === null
      ? []
      : [`nobody stays within ${kept(radialKeepOffM)} of ${radials.touchableAlong ? 'them' : 'their ends'}`]),
    ...(endsNearBorder.length === 0
      ? []
      : [`${numbered('radial', endsNearBorder)} ${near} too near the border, or beyond it`]),
  ];
  return [
    `Not judged yet: ${plural(numbers.length, 'planned radial')}, for only what is laid now was judged. Once ${one ? 'it is laid' : 'they are laid'}: ${changes.join('; ')}.`,
  ];
}
