import { borderSentences } from './border-words.ts';
import type { CarefulFigures } from './careful-figures.ts';
import type { SafetyAnswer } from './page-data/safety-answer.ts';
import { asSentence, listed, plural } from './words.ts';

type Place = SafetyAnswer['places'][number];

/** More clear places, or joints that are due, than these are counted and not named. */
const MOST_NAMED = 6;

/** From the best. */
const VERDICTS = ['clear', 'reduce power', 'keep out'] as const;

/** The worst verdict of each place over all bands. */
export function worstVerdicts(places: SafetyAnswer['places']): Map<string, Place['verdict']> {
  const worst = new Map<string, Place['verdict']>();
  for (const { name, verdict } of places) {
    if (VERDICTS.indexOf(verdict) >= VERDICTS.indexOf(worst.get(name) ?? 'clear')) worst.set(name, verdict);
  }
  return worst;
}

/** What transmitting asks of the garden, and exactly what was judged. */
export function safetyAnswer(safety: SafetyAnswer, figures: CarefulFigures): string {
  return [
    distancesSentence(safety, figures),
    ...placesSentences(safety),
    ...unplacedSentence(safety),
    ...borderSentences(safety, figures).map(asSentence),
  ].join(' ');
}

function distancesSentence({ bands, wireEnds, radials }: SafetyAnswer, { kept }: CarefulFigures): string {
  const [first] = bands;
  if (first === undefined) return 'The site names no transmission, so that nothing can be told of distances.';
  const widest = bands.reduce((a, b) => (b.distanceM > a.distanceM ? b : a), first);
  const endsM = wireEnds.filter(({ end }) => end === 'radial end').map(({ keepOffM }) => keepOffM);
  const part = touchablePart(radials);
  const ends = endsM.length === 0 ? '' : `, or ${kept(Math.max(...endsM))} of ${part}`;
  const sent = `${widest.peakPowerW} W ${widest.mode}`;
  return `While you send, nobody stays within ${kept(widest.distanceM)} of the antenna${ends} (most on ${widest.band}, ${sent}).`;
}

/** What of a radial people keep off. Raised ones of unknown way are kept off all round, by the distance from the antenna. */
function touchablePart({
  elevated,
  bareOnSurface,
  mayHang,
  touchableAlong,
  unplaced,
}: SafetyAnswer['radials']): string {
  if (bareOnSurface) return 'a bare radial';
  if (elevated) return touchableAlong && unplaced === 0 ? 'a raised radial' : 'the end of a radial';
  return mayHang && touchableAlong ? 'a radial that may hang' : 'the end of a radial';
}

function placesSentences(safety: SafetyAnswer): string[] {
  const { places } = safety;
  if (places.length === 0) return ['The site names no places, so none was judged.'];
  const worst = [...worstVerdicts(places)];
  const named = (wanted: Place['verdict']) => worst.filter(([, verdict]) => verdict === wanted);
  const told = VERDICTS.toReversed().flatMap((verdict) => {
    const names = named(verdict).map(([name]) => name);
    if (names.length === 0) return [];
    const few = verdict !== 'clear' || names.length <= MOST_NAMED;
    const all = `${names.length === worst.length ? 'all' : 'the other'} ${names.length}`;
    return [`${verdict}: ${few ? listed(names) : all}`];
  });
  return [
    `Of the places that the site names, ${told.join('; ')}. No other spot was judged.`,
    ...nearerYetClear(safety),
  ];
}

/** Why a place may be clear nearer to the antenna than the distance that everyone keeps. */
function nearerYetClear({ places, bands }: SafetyAnswer): string[] {
  const keptM = (place: Place) =>
    bands.find(({ band, mode }) => band === place.band && mode === place.mode)?.distanceM ?? 0;
  const nearer = places.filter(
    (place) => place.verdict === 'clear' && place.heightM === 0 && place.distanceM < keptM(place),
  );
  const names = [...new Set(nearer.map(({ name }) => name))];
  if (names.length === 0) return [];
  const one = names.length === 1;
  return [
    `The distance to keep is that of the worst bearing, under a raised radial; ${listed(names)} ${one ? 'lies' : 'lie'} nearer and ${one ? 'was' : 'were'} judged by the distance from each radial.`,
  ];
}

/** What was not judged, for want of knowing where radials lie. */
function unplacedSentence({ places, border, radials: { unplaced } }: SafetyAnswer): string[] {
  const reached = new Set(
    places.filter(({ unplacedRadialMayReach }) => unplacedRadialMayReach).map(({ name }) => name),
  );
  if (border?.unplacedMayReach === true) reached.add('the border');
  if (reached.size === 0) return [];
  const where =
    unplaced === null
      ? 'whether and where radials lie is not known here'
      : `where ${plural(unplaced, 'radial')} lie${unplaced === 1 ? 's' : ''} is not known here`;
  return [
    `Not judged: ${where}, and one may end within arm’s reach of ${listed([...reached])}, so look for the ends yourself.`,
  ];
}

/**
 * Why a place is not clear and what decides, a sentence each; and of clear ones only those so near the edge that their
 * rounded distance and the one to keep would read as if they were not.
 */
export function placeReasons(safety: SafetyAnswer, figures: CarefulFigures): string[] {
  const reasons = safety.places
    .filter(({ verdict }) => verdict !== 'clear')
    .map((place) =>
      place.decidedBy === 'arm’s reach'
        ? `${place.name}: ${touched(place, safety, figures)}: keep out at any power.`
        : `${place.name}, ${place.band}: ${overLimit(place, safety.radials, figures)}.`,
    );
  return [...new Set([...reasons, ...safety.places.flatMap((place) => edgeWords(place, safety, figures))])];
}

/** Says the deciding distance once, where two rounded figures would contradict the verdict. */
function edgeWords(place: Place, { bands, touchDistanceM }: SafetyAnswer, figures: CarefulFigures): string[] {
  const { name, verdict, heightM, distanceM, nearestRadialEndM, nearestRadialEnd } = place;
  if (verdict !== 'clear' || heightM !== 0) return [];
  const keptM = bands.find(({ band, mode }) => band === place.band && mode === place.mode)?.distanceM ?? 0;
  const atEdge = (presentM: number, toKeepM: number, what: string): string[] =>
    presentM >= toKeepM && figures.readsAsWithin(presentM, toKeepM)
      ? [
          `${name}: at the very edge, ${figures.fine(toKeepM)} from ${what} or a little more, which is just what people keep: clear.`,
        ]
      : [];
  return [
    ...atEdge(distanceM, keptM, 'the antenna'),
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

/** The step of the grid on which distances are told, m. */
const GRID_M = 0.1;

/** How far away a wire is over the ground; right there where less than the grid tells. */
function away(distanceM: number | null, { kept, present }: CarefulFigures): string {
  return distanceM === null || distanceM < GRID_M
    ? `less than ${kept(GRID_M)} away`
    : `${present(distanceM)} away`;
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

/** Whom a keep-out distance is told for. */
export const KEEP_OUT_IS_FOR =
  'Distances to keep out are for people on the ground; a place with a height is judged at its own.';

/** How the mean power of each transmission comes about, in words and figures. */
export function averagePowerWords({ bands, limits }: SafetyAnswer): string {
  const sums = bands.map(
    ({ band, mode, peakPowerW, dutyFactor, onAirFraction, averagePowerW }) =>
      `${band}: ${peakPowerW} W × ${dutyFactor} (${mode}) × ${onAirFraction} = ${averagePowerW} W`,
  );
  return `Mean power = peak power × duty factor of the mode × largest share of any ${limits.averagingMinutes} min spent sending; ${sums.join('; ')}.`;
}

/** Where the voltage is highest in each band. */
export function highestVoltages({ wireEnds }: SafetyAnswer): string {
  const highest = new Map<string, SafetyAnswer['wireEnds'][number]>();
  for (const end of wireEnds) {
    if (end.peakVoltageV > (highest.get(end.band)?.peakVoltageV ?? 0)) highest.set(end.band, end);
  }
  const told = [...highest.values()].map(
    ({ band, end, peakVoltageV }) => `on ${band} at the ${end}, ${peakVoltageV} V`,
  );
  return told.length === 0 ? '' : `Highest: ${told.join('; ')}.`;
}

/** Joints that should be looked at, in a sentence. */
export function jointsSentence({ joints }: SafetyAnswer): string {
  const due = joints.filter((joint) => joint.due?.overdue === true).map(({ name }) => name);
  if (due.length > MOST_NAMED) return `Look at ${due.length} joints now.`;
  if (due.length > 0)
    return `Look at ${due.length === 1 ? 'this joint' : 'these joints'} now: ${listed(due)}.`;
  return joints.length === 0 ? 'The site names no joints.' : 'No joint is due for a look.';
}

/** When a joint is to be looked at next; days are those of the zone in which the last look was logged. */
export function inspectionWords(
  inspection: { readonly due: string | null; readonly overdue: boolean } | null | undefined,
): string {
  if (inspection === null || inspection === undefined) return '-';
  if (inspection.due === null) return 'due now, no inspection is logged';
  return `${inspection.overdue ? 'overdue since' : 'due'} ${dayWithZone(inspection.due)}`;
}

/** The day of an ISO 8601 time, with its zone. */
export function dayWithZone(time: string): string {
  const zone = /(?:Z|[+-]\d{2}:\d{2})$/u.exec(time)?.[0] ?? '';
  return `${time.slice(0, 10)} ${zone === 'Z' ? 'UTC' : `UTC${zone}`}`;
}
