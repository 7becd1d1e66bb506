import type { CauseName } from './cause.ts';
import type { Differential } from './differential.ts';
import { shareExplained, sizeOfChange } from './fit-quality.ts';
import type { ReferenceLoad } from './reference-load.ts';
import type { VisitFeatures } from './visit-features.ts';

/**
 * What speaks for and against a cause, in sentences with figures.
 *
 * @param since - the visits behind `after`, one by one
 */
export function evidenceFor(
  cause: CauseName,
  differential: Differential,
  before: VisitFeatures,
  after: VisitFeatures,
  since: readonly VisitFeatures[],
): string[] {
  const sentences = [shapeSentence(cause, differential)];
  const say = (sentence: string | null): void => {
    if (sentence !== null) sentences.push(sentence);
  };
  if (cause === 'none') say(scatterSentence(differential));
  if (cause === 'series-joint') {
    say(movedSentence(before, after));
    say(sinceSentence(since));
    if (!hasFallen(before, after)) say(swrSentence(before, after));
  }
  if (cause === 'element-length' || cause === 'soil-moisture') say(movedSentence(before, after));
  if (cause === 'lost-radials') {
    say(movedSentence(before, after));
    say(
      'one bad radial among sixteen or more cannot be seen at the feed point (16 to 15 adds about 0.6 ohm, 32 to 31 about 0.2 ohm): only many lost ones show, and a current reading in each finds them',
    );
  }
  if (cause === 'feedline') {
    say('extra loss draws the reflection toward zero at every frequency, whatever the antenna does');
  }
  if (cause === 'intermittent') say(shotsSentence(differential));
  if (cause === 'instrument') say(loadSentence(differential));
  return sentences;
}

function shapeSentence(cause: CauseName, differential: Differential): string {
  const change = sizeOfChange(differential);
  const ratio = change.size / change.ordinary;
  if (cause === 'none') {
    return `the mean reflection moved by ${change.size.toPrecision(2)}; visits of this site differ by about ${change.ordinary.toPrecision(2)} by themselves (${timesText(ratio)} that)`;
  }
  const share = shareExplained(differential, cause);
  return share === null
    ? 'its shape over frequency is free, so the size of the change alone speaks for it'
    : `the curve that it would make accounts for ${Math.round(100 * share)} % of the change over frequency`;
}

function scatterSentence({ baseline, scatter }: Differential): string {
  const visits = Math.max(...baseline.spans.map((span) => span.visitsBefore));
  const scatterText =
    `from visit to visit the soil’s conductivity differs by about ${Math.round(100 * scatter.soil)} %, ` +
    `and the connector, each time it is put on, moves the reflection by about ${scatter.connection.toPrecision(1)}`;
  return visits < 2
    ? `one healthy visit shows no scatter, so the usual one of other sites stands in: ${scatterText}`
    : `as ${visits} healthy visits show it, ${scatterText}`;
}

function movedSentence(before: VisitFeatures, after: VisitFeatures): string | null {
  if (before.resonanceHz === null || after.resonanceHz === null) return null;
  const shift = (after.resonanceHz - before.resonanceHz) / 1e3;
  const parts = [
    `X = 0 moved by ${shift < 0 ? '' : '+'}${shift.toFixed(1)} kHz to ${(after.resonanceHz / 1e6).toFixed(4)} MHz`,
    `R there went from ${ohm(before.resistanceAtResonanceOhm)} to ${ohm(after.resistanceAtResonanceOhm)} ohm`,
  ];
  if (before.qualityFactor !== null && after.qualityFactor !== null) {
    parts.push(`Q from ${before.qualityFactor.toFixed(2)} to ${after.qualityFactor.toFixed(2)}`);
  }
  return parts.join(', ');
}

function hasFallen(before: VisitFeatures, after: VisitFeatures): boolean {
  const [from, to] = [before.resistanceAtResonanceOhm, after.resistanceAtResonanceOhm];
  return from !== null && to !== null && to < from;
}

function swrSentence(before: VisitFeatures, after: VisitFeatures): string {
  const rule =
    'a corroding common joint first lowers the SWR, because its resistance brings a low R nearer to 50 ohm: a better SWR is no proof of health';
  if (before.minSwr === null || after.minSwr === null) return rule;
  return `${rule} (here the best SWR went from ${before.minSwr.toFixed(2)} to ${after.minSwr.toFixed(2)})`;
}

function shotsSentence({ baseline }: Differential): string {
  const shots = Math.max(0, ...baseline.spans.map((span) => span.shotsOfAfter));
  return shots < 2
    ? 'one shot after the change cannot show a swing from shot to shot: take three or more'
    : `the ${shots} shots after the change were compared with each other and with the repeatability of the healthy ones`;
}

function loadSentence({ load }: Differential): string {
  if (load === null) return 'no sweep of the reference load was given, so this can hardly be told';
  const ratio = load.change / load.ordinary;
  const moved = hasLoadMoved(load) ? 'moved too' : 'did not move beyond its ordinary scatter';
  return `the reference load ${moved}: its reflection changed by ${load.change.toPrecision(2)}, ${timesText(ratio)} what mating a connector does`;
}

/** Whether the load moved by more than mating a connector ever does. */
export function hasLoadMoved({ change, ordinary }: ReferenceLoad): boolean {
  return change > 5 * ordinary;
}

/** `1.2 times`, `58 times` */
function timesText(ratio: number): string {
  return `${ratio < 10 ? ratio.toFixed(1) : Math.round(ratio)} times`;
}

/** How the visits since went on; null for one alone. */
function sinceSentence(since: readonly VisitFeatures[]): string | null {
  const ohms = since.flatMap(({ resistanceAtResonanceOhm: r }) => (r === null ? [] : [r]));
  if (ohms.length < 2 || ohms.length < since.length) return null;
  const [first, last] = [ohms[0] as number, ohms[ohms.length - 1] as number];
  const rises =
    last - first > GROWN_OHM && ohms.every((value, i) => i === 0 || value > (ohms[i - 1] as number));
  const told = `visit by visit since, R at X = 0 was ${ohms.map(ohm).join(', ')} ohm`;
  return rises ? `${told}: it still grows, and the ohms told are the mean of these visits` : told;
}

/** A rise from visit to visit above this is worth a word. */
const GROWN_OHM = 0.5;

function ohm(value: number | null): string {
  return value === null ? '-' : value.toFixed(1);
}
