import { borderSentences } from './border-words.ts';
import type { CarefulFigures } from './careful-figures.ts';
import { exceptionSentences, exceptions } from './exception-words.ts';
import type { SafetyAnswer } from './page-data/safety-answer.ts';
import { plannedSentences } from './planned-words.ts';
import { asSentence, listed, plural } from './words.ts';
import { byVerdict } from './worst-verdicts.ts';

/** More clear places, or joints that are due, than these are counted and not named. */
const MOST_NAMED = 6;

/** What transmitting asks of the garden, and exactly what was judged. */
export function safetyAnswer(safety: SafetyAnswer, figures: CarefulFigures): string {
  return [
    distancesSentence(safety, figures),
    ...placesSentences(safety),
    ...exceptionSentences(safety, figures),
    ...plannedSentences(safety, figures),
    ...unplacedSentence(safety),
    ...borderSentences(safety, figures).map(asSentence),
  ].join(' ');
}

function distancesSentence(safety: SafetyAnswer, { kept }: CarefulFigures): string {
  const { bands, wireEnds, radials } = safety;
  const [first] = bands;
  if (first === undefined) return 'The site names no transmission, so that nothing can be told of distances.';
  const widest = bands.reduce((a, b) => (b.distanceM > a.distanceM ? b : a), first);
  const endsM = wireEnds.filter(({ end }) => end === 'radial end').map(({ keepOffM }) => keepOffM);
  const part = touchablePart(radials);
  const ends = endsM.length === 0 ? '' : `, or ${kept(Math.max(...endsM))} of ${part}`;
  const sent = `${widest.peakPowerW} W ${widest.mode}`;
  const but = exceptions(safety).length === 0 ? '' : ', but for the places excepted below';
  return `While you send, nobody stays within ${kept(widest.distanceM)} of the antenna${ends} (most on ${widest.band}, ${sent})${but}.`;
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
  const allNames = new Set(places.map(({ name }) => name));
  const told = byVerdict(places).map(({ verdict, names }) => {
    const few = verdict !== 'clear' || names.length <= MOST_NAMED;
    const all = `${names.length === allNames.size ? 'all' : 'the other'} ${names.length}`;
    return `${verdict}: ${few ? listed(names) : all}`;
  });
  return [`Of the places that the site names, ${told.join('; ')}. No other spot was judged.`];
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
