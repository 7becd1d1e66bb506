import { shownVerdict } from '../../src/core/proof/shown-as.ts';
import { levelsWords } from '../../src/formats/levels-words.ts';
import type { PageData, ProgressAnswer } from '../../src/formats/page-data.ts';
import { jointsSentence, safetyAnswer } from '../../src/formats/safety-words.ts';
import { type Child, h } from '../dom.ts';
import { changeSentence } from '../model/change-words.ts';
import {
  comparisonSentence,
  differenceText,
  handfulName,
  measuresOf,
  shownAs,
  strengthSentence,
} from '../model/comparison-words.ts';
import { handfuls } from '../model/field-words.ts';
import { figuresFor, watts } from '../model/garden-words.ts';
import { adviceSentence, plusMinus } from '../model/progress-words.ts';
import { coverageSentence } from '../model/wires-words.ts';
import { proseList } from '../parts/prose-list.ts';
import { countChart } from '../pictures/count-chart.ts';
import { lotPicture } from '../pictures/lot-picture.ts';
import type { Reader } from '../reader.ts';
import { plainTable } from './plain-table.ts';
import { siteFacts } from './site-facts.ts';

const CHART_PX = 430;
/** More rows than these do not fit the page; the oldest and the newest tell most. */
const MOST_STEPS = 9;

/** The report: two sheets of paper. */
export function reportSheets(data: PageData, reader: Reader): HTMLElement {
  const name = data.site?.name ?? 'The site';
  const foot = h(
    'p',
    { class: 'sheet-foot' },
    `${name}. Made ${reader.time(data.made)} by ${data.program}, from a logbook that its owner keeps.`,
  );
  return h(
    'div',
    { class: 'sheets' },
    h(
      'section',
      { class: 'sheet', 'aria-label': 'First page' },
      h('h2', { class: 'sheet-title' }, `${name}: ground radials under a vertical`),
      h('div', { class: 'sheet-columns' }, [
        h(
          'div',
          {},
          h('h3', {}, 'The site'),
          siteFacts(data, reader),
          h('h3', {}, 'What was done'),
          doneWords(data, reader),
          stepsTable(data, reader),
        ),
        lot(data, reader),
      ]),
      foot.cloneNode(true),
    ),
    h(
      'section',
      { class: 'sheet', 'aria-label': 'Second page' },
      h('div', { class: 'sheet-columns' }, [proof(data, reader), h('div', {}, garden(data, reader))]),
      methodPart(data),
      foot,
    ),
  );
}

function doneWords({ lot: { data } }: PageData, reader: Reader): Child {
  const laid = handfuls(data?.wires ?? []);
  const [first, last] = [laid[0]?.since, laid.at(-1)?.since];
  if (data === null || first === undefined) return h('p', {}, 'No radial is laid yet.');
  const count = laid.reduce((sum, { wires }) => sum + wires.length, 0);
  const wireM = laid.reduce((sum, group) => sum + group.wireM, 0);
  const days =
    first === null || last === null || last === undefined
      ? ''
      : `, laid in ${laid.length} ${laid.length === 1 ? 'handful' : 'handfuls'} from ${reader.date(first)} to ${reader.date(last)}`;
  return h(
    'p',
    {},
    `${count} radials, ${reader.length(wireM, 0)} of wire${days}. ${coverageSentence(data.wires)}`,
  );
}

function lot(data: PageData, reader: Reader): Child {
  if (data.lot.data === null) return null;
  const { lot: plot, wires } = data.lot.data;
  return h(
    'figure',
    { class: 'sheet-lot' },
    lotPicture({
      lot: plot,
      wires: wires.filter(({ state }) => state === 'laid'),
      circles: [],
      verdicts: new Map(),
      title: 'The lot, to scale',
      reader,
    }),
    h('figcaption', {}, `The lot to scale, ${handfuls(wires).length} handfuls of wire, older ones darker.`),
  );
}

function stepsTable({ progress }: PageData, reader: Reader): Child {
  const steps = progress.data?.[0]?.steps ?? [];
  if (steps.length === 0) return null;
  const shown = steps.length <= MOST_STEPS ? steps : [...steps.slice(0, 1), ...steps.slice(1 - MOST_STEPS)];
  return plainTable(
    'The handfuls in figures',
    ['since', 'radials', 'wire', 'R at X = 0, Ω', 'dB by R', 'dB heard'],
    shown.map((step) => [
      step.time === null ? '–' : reader.date(step.time),
      String(step.radials),
      reader.length(step.wireM, 0),
      plusMinus(step.resistanceAtResonanceOhm, 1, 1, reader),
      plusMinus(step.gainDb, 1, 2, reader),
      plusMinus(step.strengthDb, 1, 1, reader),
    ]),
  );
}

function proof({ progress, comparisons, changes }: PageData, reader: Reader): HTMLElement {
  const whole = comparisons.data?.at(-1);
  return h(
    'div',
    {},
    h('h3', {}, 'What it brought'),
    progress.data === null
      ? h('p', {}, progress.missing.why)
      : progress.data.slice(0, 1).map((first) => progressPart(first, reader)),
    whole === undefined
      ? null
      : [
          h(
            'p',
            {},
            `${comparisonSentence(handfulName(whole, reader), whole.answer, reader)} ${strengthSentence(whole.answer, reader)}`,
          ),
          plainTable(
            'All wires against the first',
            ['', 'difference', 'verdict'],
            measuresOf(whole.answer).map((measure) => [
              shownAs(measure.measure).name,
              differenceText(measure, reader),
              shownVerdict(measure.measure, measure.verdict),
            ]),
          ),
        ],
    changes.data === null
      ? null
      : [h('h3', {}, 'Since then'), h('p', {}, changeSentence(changes.data.answer))],
  );
}

function progressPart(progress: ProgressAnswer, reader: Reader): Child {
  const points = progress.steps.flatMap(
    ({ radials, resistanceAtResonanceOhm: { value, expandedUncertainty } }) =>
      value === null ? [] : [{ radials, value, half: expandedUncertainty }],
  );
  const most = 1.08 * Math.max(1, ...points.map(({ radials }) => radials));
  const chart = {
    title: 'R at X = 0, Ω',
    most,
    series: [{ points, style: { colour: '--after', widthPx: 3, dash: [], mark: 'disc' as const } }],
    curve: progress.curve.map(({ radials, resistanceOhm }) => ({ radials, value: resistanceOhm })),
  };
  return [
    h('p', {}, adviceSentence(progress)),
    points.length === 0 ? null : countChart(chart, CHART_PX, reader),
  ];
}

function garden({ safety }: PageData, reader: Reader): Child {
  if (safety.data === null)
    return [h('h3', {}, 'What transmitting asks of the garden'), h('p', {}, safety.missing.why)];
  const { bands, places, cautions, limits } = safety.data;
  const figures = figuresFor(reader);
  return [
    h('h3', {}, 'What transmitting asks of the garden'),
    h('p', {}, [safetyAnswer(safety.data, figures), jointsSentence(safety.data)].join(' ')),
    plainTable(
      'Distances to keep',
      ['band', 'peak power', 'mode', 'keep out'],
      bands.map((band) => [
        band.band,
        `${watts(band.peakPowerW, reader)} W`,
        band.mode,
        figures.kept(band.distanceM),
      ]),
    ),
    places.length === 0
      ? null
      : plainTable(
          'Places',
          ['place', 'band', 'away', 'verdict'],
          places
            .slice(0, MOST_STEPS)
            .map((place) => [place.name, place.band, figures.present(place.distanceM), place.verdict]),
        ),
    h('p', {}, `Held against ${limits.title}.`),
    proseList(cautions),
  ];
}

/** What anybody who was not there should know before believing it. */
function methodPart({ progress, comparisons, safety }: PageData): HTMLElement {
  const sentences = [
    'Sweeps are taken at the foot of the antenna, several shots a visit; figures are read where the reactance is zero, each visit at its own frequency.',
    '± is the expanded uncertainty (JCGM 100, two standard uncertainties or the factor k that is printed); “not shown” means that the difference may well be none.',
    'A fall of R at X = 0 is a lower estimate of the gain; received strength, where it was read, outranks it. A lower SWR alone proves nothing.',
    ...(progress.data?.[0]?.model.name === 'soil and ground loss'
      ? ['The fitted curve takes the field as even and straight, on one soil.']
      : []),
    ...(comparisons.data === null
      ? []
      : ['Soil moisture moves R as wires do; where it was noted it is corrected for.']),
    ...(safety.data === null
      ? []
      : [
          'Distances are computed for thin wires over perfect ground, not measured: real ground and metal close by change the field by tens of per cent and more. Local codes and licensed practice decide.',
          `${safety.data.limits.title}: ${levelsWords(safety.data.limits)}`,
        ]),
  ];
  return h('div', { class: 'sheet-method' }, h('h3', {}, 'Method, and its limits'), proseList(sentences));
}
