import { formatLength, type UnitSystem } from '../core/quantity.ts';
import { REACH_UP_M } from '../core/safety/keep-off.ts';
import { type CarefulFigures, carefulFigures, keptAlike } from '../formats/careful-figures.ts';
import { exemptionWords } from '../formats/exemption-words.ts';
import { levelsWords } from '../formats/levels-words.ts';
import type { SafetyAnswer } from '../formats/page-data.ts';
import { placeName, placeReasons, wireDistance } from '../formats/place-reasons.ts';
import {
  averagePowerWords,
  highestVoltages,
  inspectionWords,
  jointsSentence,
  KEEP_OUT_IS_FOR,
  safetyAnswer,
} from '../formats/safety-words.ts';
import { table } from './answer.ts';

/** The answer of `safety` for people: one sentence, the tables, the cautions once, the limits of the method. */
export function safetyText(safety: SafetyAnswer, units: UnitSystem): string {
  const figures = figuresIn(units);
  const { title, id, why, source } = safety.limits;
  return [
    safetyAnswer(safety, figures),
    placeReasons(safety, figures).join('\n'),
    safety.joints.some(({ due }) => due?.overdue === true) ? jointsSentence(safety) : '',
    `Limits: ${title} (${id}, ${why}). ${source}. ${levelsWords(safety.limits)} Your local rule decides.`,
    bandTable(safety, figures, units),
    placeTable(safety, figures),
    safety.accuracy,
    exemptionWords(safety, figures),
    endTable(safety, figures),
    jointTable(safety),
    section('Cautions', safety.cautions),
    section('Taken, because the site does not say', safety.assumptions),
    section('What this does not tell', safety.limitsOfMethod),
  ]
    .filter((part) => part !== '')
    .join('\n\n');
}

function figuresIn(units: UnitSystem): CarefulFigures {
  return carefulFigures(units, {
    length: (lengthM, decimals) => formatLength(lengthM, units, decimals),
    watts: String,
  });
}

function bandTable(safety: SafetyAnswer, { kept }: CarefulFigures, units: UnitSystem): string {
  const rows = safety.bands.map(
    ({ band, mode, peakPowerW, averagePowerW, distanceM, decidedBy, farField }) => {
      const { fullReflectionM, practicalReflectionM, validFromM } = farField;
      const [keepOut = '', ...far] = keptAlike(
        [distanceM, fullReflectionM, practicalReflectionM, validFromM],
        units,
      );
      return [band, mode, `${peakPowerW} W`, `${averagePowerW} W`, keepOut, decidedBy, ...far];
    },
  );
  const absent = safety.bands.some(({ farField }) => farField.fullReflectionM === null);
  return [
    table([
      ['band', 'mode', 'peak', 'mean', 'keep out', 'decided by', 'far ×4', 'far ×2.56', 'beyond'],
      ...rows,
    ]),
    `${KEEP_OUT_IS_FOR} ${averagePowerWords(safety)}`,
    `Touch nothing bare at any power: arm’s reach is ${kept(safety.touchDistanceM)}. The columns “far” are for comparison only: the distance by the far-field form S = K·P·G/(4πR²), K being 4 for full reflection and 2.56 for that met in practice (OET 65, eq. 6 and 8). It holds beyond λ/2π, the last column; nearer, the two fields decide.${absent ? ' “-”: these limits have no power density there.' : ''}`,
  ].join('\n');
}

function placeTable({ places }: SafetyAnswer, figures: CarefulFigures): string {
  if (places.length === 0) return '';
  const endsKnown = places.some(({ nearestRadialEnd }) => nearestRadialEnd !== null);
  const row = (place: readonly string[], end: readonly string[], verdict: readonly string[]): string[] => [
    ...place,
    ...(endsKnown ? end : []),
    ...verdict,
  ];
  const head = row(['place', 'distance'], ['radial end', 'radial'], ['band', 'mode', 'verdict', 'up to']);
  const rows = places.map((place) =>
    row(
      [placeName(place, figures), figures.present(place.distanceM)],
      place.nearestRadialEndM === null
        ? ['-', '-']
        : [wireDistance(place.nearestRadialEndM, figures), `${place.nearestRadialEnd}`],
      [place.band, place.mode, place.verdict, figures.allowed(place.maxPowerW)],
    ),
  );
  return [
    table([head, ...rows]),
    `“Distance” is from the antenna${endsKnown ? ', “radial end” to the nearest open end of a radial and which' : ''}; “up to” is the peak power in that mode at which the verdict changes.`,
  ].join('\n');
}

function endTable(safety: SafetyAnswer, { kept }: CarefulFigures): string {
  return [
    table([
      ['wire', 'band', 'peak V', 'good to', 'shared by', 'keep off'],
      ...safety.wireEnds.map((end) => [
        end.end,
        end.band,
        String(end.peakVoltageV),
        end.accuracy,
        String(end.sharedBy),
        kept(end.keepOffM),
      ]),
    ]),
    `Volts are the peak of the wave at peak power, each wire taken as an open line. ${highestVoltages(safety)} Keep people off an end by the last column, sideways; wire more than ${kept(REACH_UP_M)} over where they stand is out of reach.`,
  ].join('\n');
}

function jointTable({ joints }: SafetyAnswer): string {
  if (joints.length === 0) return '';
  const rows = joints.map((joint) => [
    joint.name,
    joint.metals.join(' / '),
    `${joint.differenceV.toFixed(2)} of ${joint.allowedV.toFixed(2)} V`,
    joint.verdict,
    `${joint.inspectionMonths} months`,
  ]);
  const looks = joints.flatMap(({ name, due }) =>
    due === null ? [] : [`${name}: ${inspectionWords(due)}.`],
  );
  const advice = joints.flatMap((joint) => joint.advice.map((sentence) => `${joint.name}: ${sentence}`));
  return [
    table([['joint', 'metals', 'difference', 'verdict', 'look every'], ...rows]),
    ...looks,
    ...advice,
  ].join('\n');
}

function section(title: string, sentences: readonly string[]): string {
  return sentences.length === 0
    ? ''
    : [`${title}:`, ...sentences.map((sentence) => `- ${sentence}`)].join('\n');
}
