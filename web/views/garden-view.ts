import type { DrawnCircle } from '../../src/core/layout/lot-drawing.ts';
import type { PageData, SafetyAnswer } from '../../src/formats/page-data.ts';
import { asSentence } from '../../src/formats/words.ts';
import type { App } from '../app.ts';
import { type Child, h } from '../dom.ts';
import { gardenSentence, jointsSentence } from '../model/garden-words.ts';
import { placeVerdicts } from '../model/place-verdicts.ts';
import { foldedList, proseList } from '../parts/prose-list.ts';
import { dataTable } from '../parts/table.ts';
import { lotPicture } from '../pictures/lot-picture.ts';
import type { Reader } from '../reader.ts';
import { answerView } from './answer-view.ts';
import { notYet } from './not-yet.ts';
import type { View } from './view.ts';

/** What does transmitting ask of the garden? */
export function gardenView(app: App): View {
  return answerView(
    app,
    (data) => data.safety,
    ({ answer: safety, data, reader }) => [
      h('p', { class: 'answer' }, gardenSentence(safety, reader)),
      h('p', { class: 'answer-second' }, jointsSentence(safety)),
      h('div', { class: 'garden-top' }, lotFigure(data, safety, reader), cautionsPart(safety)),
      gardenTables(safety, reader),
      h('h2', {}, 'What this rests on'),
      h('p', {}, `${safety.limits.title} (${safety.limits.why}). ${safety.limits.source}.`),
      proseList(safety.assumptions.map(asSentence)),
      foldedList('What the method leaves out', safety.limitsOfMethod),
    ],
  );
}

function lotFigure(data: PageData, safety: SafetyAnswer, reader: Reader): Child {
  if (data.lot.data === null) return notYet(data.lot.missing);
  const { lot, wires } = data.lot.data;
  return h(
    'figure',
    {},
    lotPicture({
      lot,
      wires: wires.filter(({ state }) => state === 'laid'),
      circles: keepOutCircles(safety, reader),
      verdicts: placeVerdicts(data),
      title: 'The lot with the distances to keep, to scale',
      reader,
    }),
    h(
      'figcaption',
      {},
      `Dashed ring: nobody inside while that band is sent. The far ends of wires carry voltage too: keep ${reader.length(safety.touchDistanceM)} from them.`,
    ),
  );
}

/** One ring for each distance, whatever number of bands share it. */
function keepOutCircles({ bands }: SafetyAnswer, reader: Reader): DrawnCircle[] {
  const byDistance = new Map<number, Set<string>>();
  for (const { distanceM, band } of bands) {
    const names = byDistance.get(distanceM) ?? new Set();
    byDistance.set(distanceM, names.add(band));
  }
  return [...byDistance]
    .sort(([a], [b]) => b - a)
    .map(([radiusM, names]) => ({
      radiusM,
      label: `keep out on ${[...names].join(', ')}: ${reader.length(radiusM)}`,
    }));
}

function cautionsPart({ cautions }: SafetyAnswer): HTMLElement {
  return h(
    'section',
    { class: 'cautions', 'aria-labelledby': 'cautions' },
    h('h2', { id: 'cautions' }, 'Mind this'),
    proseList(cautions),
    h('p', {}, 'Local codes, your licence and licensed people decide; this page only reminds.'),
  );
}

/** All of it in figures. */
export function gardenTables(safety: SafetyAnswer, reader: Reader): Child {
  return [
    dataTable(
      'Distances to keep while sending',
      ['band', 'mode', 'peak power', 'mean power', 'distance', 'decided by'],
      safety.bands.map((band) => [
        band.band,
        band.mode,
        `${reader.number(band.peakPowerW, 0)} W`,
        `${reader.number(band.averagePowerW, 1)} W`,
        reader.length(band.distanceM),
        band.decidedBy,
      ]),
    ),
    dataTable(
      'Places on the lot',
      ['place', 'band', 'from the antenna', 'verdict', 'most power there', 'decided by'],
      safety.places.map((place) => [
        place.name,
        `${place.band} ${place.mode}`,
        reader.length(place.distanceM),
        place.verdict,
        `${reader.number(place.maxPowerW, 0)} W`,
        place.decidedBy,
      ]),
    ),
    dataTable(
      'Voltage at open ends',
      ['end', 'band', 'peak voltage', 'known', 'keep off'],
      safety.wireEnds.map((end) => [
        end.end,
        `${end.band} ${end.mode}`,
        `${reader.number(end.peakVoltageV, 0)} V`,
        end.accuracy,
        reader.length(end.keepOffM),
      ]),
    ),
    dataTable(
      'Joints',
      ['joint', 'metals', 'between them', 'verdict', 'look every', 'last looked', 'due'],
      safety.joints.map(({ name, metals, differenceV, verdict, inspectionMonths, due }) => [
        name,
        metals.join(' – '),
        `${reader.number(differenceV, 2)} V`,
        verdict,
        `${inspectionMonths} months`,
        due === null || due.last === null ? 'never' : reader.date(due.last),
        due === null
          ? '–'
          : due.due === null
            ? 'now'
            : `${reader.date(due.due)}${due.overdue ? ' (over)' : ''}`,
      ]),
    ),
    foldedList(
      'What to do at the joints',
      safety.joints.flatMap(({ name, advice }) => advice.map((line) => `${name}: ${line}`)),
    ),
  ];
}
