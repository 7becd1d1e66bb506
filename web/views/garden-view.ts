import type { DrawnCircle, DrawnKeepOff } from '../../src/core/layout/lot-drawing.ts';
import type { CarefulFigures } from '../../src/formats/careful-figures.ts';
import { exceptions } from '../../src/formats/exception-words.ts';
import { levelsWords } from '../../src/formats/levels-words.ts';
import type { PageData, PageWire, SafetyAnswer } from '../../src/formats/page-data.ts';
import { placeName, placeReasons, wireDistance } from '../../src/formats/place-reasons.ts';
import {
  averagePowerWords,
  highestVoltages,
  inspectionWords,
  jointsSentence,
  KEEP_OUT_IS_FOR,
  safetyAnswer,
} from '../../src/formats/safety-words.ts';
import { asSentence } from '../../src/formats/words.ts';
import { worstVerdicts } from '../../src/formats/worst-verdicts.ts';
import type { App } from '../app.ts';
import { type Child, h } from '../dom.ts';

import { figuresFor, radialEndWords, watts } from '../model/garden-words.ts';

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
      h('p', { class: 'answer' }, reader.prose(safetyAnswer(safety, figuresFor(reader)))),
      h(
        'p',
        { class: 'answer-second' },
        [...placeReasons(safety, figuresFor(reader)), jointsSentence(safety)].join(' '),
      ),
      h('div', { class: 'garden-top' }, lotFigure(data, safety, reader), cautionsPart(safety)),
      gardenTables(safety, reader),
      h('h2', {}, 'What this rests on'),
      h(
        'p',
        {},
        `${safety.limits.title} (${safety.limits.why}). ${safety.limits.source}. ${reader.prose(levelsWords(safety.limits))}`,
      ),
      proseList(safety.assumptions.map(asSentence)),
      foldedList('What the method leaves out', safety.limitsOfMethod),
    ],
  );
}

function lotFigure(data: PageData, safety: SafetyAnswer, reader: Reader): Child {
  if (data.lot.data === null) return notYet(data.lot.missing);
  const { lot, wires } = data.lot.data;
  const figures = figuresFor(reader);
  const circles = keepOutCircles(safety, figures);
  return h(
    'figure',
    {},
    lotPicture({
      lot,
      wires,
      circles,
      keepOffs: keepOffs(data.lot.data.wires, safety),
      verdicts: worstVerdicts(safety.places),
      title: 'The lot with the distances to keep, to scale',
      reader,
    }),
    h('figcaption', {}, captionOf(safety, circles, figures)),
  );
}

function captionOf(safety: SafetyAnswer, circles: readonly DrawnCircle[], { kept }: CarefulFigures): string {
  const { elevated, unplaced, bareOnSurface, touchableAlong } = safety.radials;
  const along = elevated ? 'raised radials' : bareOnSurface ? 'bare radials' : 'radials, which may hang';
  const part = touchableAlong ? along : 'the ends of radials';
  const near = `within ${kept(radialKeepOffM(safety))} of ${part}`;
  const radials = judgedAllRound(safety.radials)
    ? ''
    : unplaced === 0
      ? ` Shaded: ${near}, where nobody stays either.`
      : ` Nobody stays ${near} either, which is not drawn: where some lie is not known here.`;
  const rings = circles.map(({ label }) => label).join('; ');
  const but = exceptions(safety).length === 0 ? '' : ', but for the places excepted above';
  const planned = safety.planned === null ? '' : ' Dashed wires are planned and not judged yet.';
  return `Dashed rings: nobody on the ground inside while you send on that band (${rings})${but}.${radials} Only the places with a dot were judged.${planned}`;
}

/** Rings nearer to each other than this cannot be told apart on the drawing, m. */
const RING_STEP_M = 0.6;

/** One ring for distances that are about the same, at the largest of them. */
function keepOutCircles({ bands }: SafetyAnswer, { kept }: CarefulFigures): DrawnCircle[] {
  const rings: { radiusM: number; leastM: number; bands: Set<string> }[] = [];
  for (const { distanceM, band } of bands.toSorted((a, b) => b.distanceM - a.distanceM)) {
    const ring = rings.at(-1);
    if (ring !== undefined && ring.radiusM - distanceM < RING_STEP_M) {
      ring.bands.add(band);
      ring.leastM = distanceM;
    } else rings.push({ radiusM: distanceM, leastM: distanceM, bands: new Set([band]) });
  }
  return rings.map(({ radiusM, leastM, bands }) => ({
    radiusM,
    label: `${[...bands].join(', ')}: ${leastM < radiusM ? 'up to ' : ''}${kept(radiusM)}`,
  }));
}

/** Raised radials that hang out of reach, or whose ways are not all known, are in the rings. */
function judgedAllRound({ elevated, touchableAlong, unplaced }: SafetyAnswer['radials']): boolean {
  return elevated && (!touchableAlong || unplaced !== 0);
}

/** The ground within the keep-off distance of the radials' ends, or of all of them where they are bare. */
function keepOffs(wires: readonly PageWire[], safety: SafetyAnswer): DrawnKeepOff[] {
  const radiusM = radialKeepOffM(safety);
  if (judgedAllRound(safety.radials) || safety.radials.unplaced !== 0) return [];
  return wires
    .filter(({ state }) => state === 'laid')
    .map(({ points }) => ({ points: safety.radials.touchableAlong ? points : points.slice(-1), radiusM }));
}

function radialKeepOffM({ wireEnds, touchDistanceM }: SafetyAnswer): number {
  return wireEnds.reduce(
    (m, { end, keepOffM }) => (end === 'radial end' ? Math.max(m, keepOffM) : m),
    touchDistanceM,
  );
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

/** What set the power up to which a place is clear, and at which distance. */
function decidedBy(
  place: SafetyAnswer['places'][number],
  { radials, touchDistanceM }: SafetyAnswer,
  figures: CarefulFigures,
): string {
  const { decidedBy: what, decidingRadial, nearestRadialEndM, nearestWireM, distanceM } = place;
  if (decidingRadial === null) return `${what}, ${figures.present(distanceM)} from the antenna`;
  const isEnd = !radials.touchableAlong && (nearestRadialEndM ?? touchDistanceM) < touchDistanceM;
  return isEnd
    ? `${what}, ${wireDistance(nearestRadialEndM ?? 0, figures)} from the end of radial ${decidingRadial}`
    : `${what}, ${wireDistance(nearestWireM ?? 0, figures)} from radial ${decidingRadial}`;
}

/** All of it in figures. */
export function gardenTables(safety: SafetyAnswer, reader: Reader): Child {
  const figures = figuresFor(reader);
  return [
    dataTable(
      'Distances to keep while sending',
      ['band', 'mode', 'peak power', 'mean power', 'distance', 'decided by'],
      safety.bands.map((band) => [
        band.band,
        band.mode,
        `${watts(band.peakPowerW, reader)} W`,
        `${watts(band.averagePowerW, reader)} W`,
        figures.kept(band.distanceM),
        band.decidedBy,
      ]),
    ),
    h('p', {}, reader.prose(`${KEEP_OUT_IS_FOR} ${averagePowerWords(safety)}`)),
    placesTable(safety, figures),
    h('p', {}, safety.accuracy),
    dataTable(
      'Voltage at open ends',
      ['end', 'band', 'peak voltage', 'known', 'keep off'],
      safety.wireEnds.map((end) => [
        end.end,
        `${end.band} ${end.mode}`,
        `${reader.number(end.peakVoltageV, 0)} V`,
        end.accuracy,
        figures.kept(end.keepOffM),
      ]),
    ),
    h('p', {}, reader.prose(highestVoltages(safety))),
    jointsTable(safety, reader),
    foldedList(
      'What to do at the joints',
      safety.joints.flatMap(({ name, advice }) => advice.map((line) => `${name}: ${line}`)),
    ),
  ];
}

/** A row for each place, and in it a line for each band. */
function placesTable(safety: SafetyAnswer, figures: CarefulFigures): Child {
  const { places } = safety;
  const worst = worstVerdicts(places);
  const rows = [...worst].map(([name, verdict]) => {
    const those = places.filter((place) => place.name === name);
    const [first] = those as [SafetyAnswer['places'][number]];
    return [
      placeName(first, figures),
      figures.present(first.distanceM),
      radialEndWords(first, figures),
      verdict,
      those.map((place) =>
        h(
          'span',
          { class: 'line' },
          `${place.band} ${place.mode}: ${place.verdict === verdict ? '' : `${place.verdict}, `}${figures.allowed(place.maxPowerW)} (${decidedBy(place, safety, figures)})`,
        ),
      ),
    ];
  });
  return rows.length === 0
    ? null
    : dataTable(
        'Places that the site names',
        ['place', 'antenna', 'nearest radial end', 'verdict', 'clear up to, peak (decided by)'],
        rows,
      );
}

function jointsTable({ joints }: SafetyAnswer, reader: Reader): Child {
  if (joints.length === 0) return null;
  return dataTable(
    'Joints',
    ['joint', 'metals', 'between them', 'verdict', 'look every', 'next look'],
    joints.map(({ name, metals, differenceV, verdict, inspectionMonths, due }) => [
      name,
      metals.join(' – '),
      `${reader.number(differenceV, 2)} V`,
      verdict,
      `${inspectionMonths} months`,
      reader.prose(inspectionWords(due)),
    ]),
  );
}
