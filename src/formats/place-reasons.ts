import type { CarefulFigures } from './careful-figures.ts';
import type { SafetyAnswer } from './page-data/safety-answer.ts';

type Place = SafetyAnswer['places'][number];

/**
 * Why a place is not clear and what decides, a sentence each; and of clear ones only those so near the edge that their
 * rounded distance and the one to keep would read as if they were not.
 */
export function placeReasons(safety: SafetyAnswer, figures: CarefulFigures): string[] {
  const reasons = reasonsAgainst(safety.places, safety, figures);
  const planned = reasonsAgainst(safety.planned?.places ?? [], safety, figures);
  const edges = safety.places.flatMap((place) => edgeWords(place, safety, figures));
  return [
    ...new Set([...reasons, ...edges, ...planned.map((reason) => `Once planned radials lie: ${reason}`)]),
  ];
}

function reasonsAgainst(
  places: SafetyAnswer['places'],
  safety: SafetyAnswer,
  figures: CarefulFigures,
): string[] {
  return places
    .filter(({ verdict }) => verdict !== 'clear')
    .map((place) =>
      place.decidedBy === 'arm’s reach'
        ? `${place.name}: ${touched(place, safety, figures)}: keep out at any power.`
        : `${place.name}, ${place.band}: ${overLimit(place, safety.radials, figures)}.`,
    );
}

/** Says the deciding distance once, where two rounded figures would contradict the verdict. */
function edgeWords(place: Place, { bands, touchDistanceM }: SafetyAnswer, figures: CarefulFigures): string[] {
  const { name, verdict, heightM, distanceM, nearestRadialEndM, nearestRadialEnd } = place;
  if (verdict !== 'clear') return [];
  const keptM = bands.find(({ band, mode }) => band === place.band && mode === place.mode)?.distanceM ?? 0;
  const atEdge = (presentM: number, toKeepM: number, what: string): string[] =>
    presentM >= toKeepM && figures.readsAsWithin(presentM, toKeepM)
      ? [
          `${name}: at the very edge, ${figures.fine(toKeepM)} from ${what} or a little more, which is just what people keep: clear.`,
        ]
      : [];
  return [
    ...(heightM === 0 ? atEdge(distanceM, keptM, 'the antenna') : []),
    ...(nearestRadialEndM === null
      ? []
      : atEdge(nearestRadialEndM, touchDistanceM, `the end of radial ${nearestRadialEnd}`)),
  ];
}

function touched(place: Place, { radials, touchDistanceM }: SafetyAnswer, figures: CarefulFigures): string {
  const reach = `arm’s reach (${figures.kept(touchDistanceM)})`;
  const { decidingRadial, nearestRadialEndM, nearestWireM, distanceM } = place;
  if (decidingRadial !== null) {
    return radials.touchableAlong
      ? `radial ${decidingRadial}, ${radials.elevated ? 'raised' : radials.bareOnSurface ? 'bare' : 'which may hang'}, passes ${away(nearestWireM, figures)}, within ${reach}`
      : `the end of radial ${decidingRadial} is ${away(nearestRadialEndM, figures)}, within ${reach}`;
  }
  const fromAntenna = `${figures.present(distanceM)} from the antenna`;
  return radials.elevated && radials.unplaced !== 0
    ? `${fromAntenna}, within ${reach} of it or of a raised radial, which may point here`
    : `${fromAntenna}, within ${reach}`;
}

function away(distanceM: number | null, figures: CarefulFigures): string {
  return `${wireDistance(distanceM ?? 0, figures)} away`;
}

/** The step of the grid on which distances are told, m. */
const GRID_M = 0.1;

/** How far a wire is over the ground, which may be less than the grid tells. */
export function wireDistance(distanceM: number, { kept, present }: CarefulFigures): string {
  return distanceM < GRID_M ? `less than ${kept(GRID_M)}` : present(distanceM);
}

function overLimit(
  place: Place,
  { elevated, unplaced }: SafetyAnswer['radials'],
  figures: CarefulFigures,
): string {
  const { decidingRadial, nearestWireM, distanceM, maxPowerW, mode, decidedBy } = place;
  const fieldOf =
    unplaced === 0
      ? ', with the fields of the raised radials where they hang'
      : ', with the field of the worst bearing around it';
  const what =
    decidingRadial === null
      ? `${figures.present(distanceM)} from the antenna${elevated ? fieldOf : ''}`
      : `radial ${decidingRadial} passes ${away(nearestWireM, figures)}`;
  const power =
    place.verdict === 'keep out'
      ? 'less than a watt is allowed'
      : `up to ${figures.allowed(maxPowerW)} peak in ${mode}`;
  return `${what}, ${power} (${decidedBy})`;
}

/** A place with the height that it was judged at, where that is not the ground. */
export function placeName({ name, heightM }: Place, { present }: CarefulFigures): string {
  return heightM === 0 ? name : `${name}, ${present(heightM)} up`;
}
