import type { CauseName } from './cause.ts';
import type { Differential } from './differential.ts';
import { shareExplained, sizeOfChange } from './fit-quality.ts';
import type { VisitFeatures } from './visit-features.ts';

/** What speaks for and against a cause, in sentences with figures. */
export function evidenceFor(
  cause: CauseName,
  differential: Differential,
  before: VisitFeatures,
  after: VisitFeatures,
): string[] {
  const sentences = [shapeSentence(cause, differential)];
  const say = (sentence: string | null): void => {
    if (sentence !== null) sentences.push(sentence);
  };
  if (cause === 'none') say(scatterSentence(differential));
  if (cause === 'series-joint') {
    say(movedSentence(before, after));
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
    return `the mean reflection moved by ${change.size.toPrecision(2)}; visits of this site differ by about ${change.ordinary.toPrecision(2)} by themselves (${ratio.toFixed(1)} times)`;
  }
  const share = shareExplained(differential, cause);
  return share === null
    ? 'its shape over frequency is free, so the size of the change alone speaks for it'
    : `the curve that it would make accounts for ${Math.round(100 * share)} % of the change over frequency`;
}

function scatterSentence({ baseline, scatter }: Differential): string {
  const visits = Math.max(...baseline.spans.map((span) => span.visitsBefore));
  const soil = `soil conductivity by ${Math.round(100 * scatter.soil)} %, the connection by ${Number(scatter.connection.toPrecision(2))} of the reflection`;
  return visits < 2
    ? `with one healthy visit the scatter is the usual one of other sites: ${soil}`
    : `${visits} healthy visits agree best with a scatter of ${soil}`;
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
  const moved = ratio > 5 ? 'moved too' : 'did not move beyond its ordinary scatter';
  return `the reference load ${moved}: its reflection changed by ${load.change.toPrecision(2)}, ${ratio.toFixed(1)} times what mating a connector does`;
}

function ohm(value: number | null): string {
  return value === null ? '-' : value.toFixed(1);
}
