import { shownVerdict } from '../../src/core/proof/shown-as.ts';
import type { PageData } from '../../src/formats/page-data.ts';
import { type Child, h } from '../dom.ts';
import { changeSentence, checkSentence } from '../model/change-words.ts';
import {
  comparisonSentence,
  differenceText,
  handfulName,
  measuresOf,
  shownAs,
  strengthSentence,
} from '../model/comparison-words.ts';
import { handfuls } from '../model/field-words.ts';
import { adviceSentence, fittedPoints, fittedPointsWords, plusMinus } from '../model/progress-words.ts';
import { coverageSentence } from '../model/wires-words.ts';
import { countChart } from '../pictures/count-chart.ts';
import { lotPicture } from '../pictures/lot-picture.ts';
import type { Reader } from '../reader.ts';
import { gardenPart, methodPart } from './garden-part.ts';
import { plainTable } from './plain-table.ts';
import { siteFacts } from './site-facts.ts';

const CHART_PX = { width: 430, height: 210 };
/** More rows than these do not fit the page; the oldest and the newest tell most. */
const MOST_STEPS = 8;

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
          brought(data, reader),
          sinceThen(data),
        ),
        lot(data, reader),
      ]),
      foot.cloneNode(true),
    ),
    h(
      'section',
      { class: 'sheet', 'aria-label': 'Second page' },
      h(
        'div',
        { class: 'sheet-flow' },
        nextPart(data, reader),
        gardenPart(data, reader),
        methodPart(data, reader),
      ),
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

/** All the wires together: a last handful that does not show by itself takes nothing from the whole. */
function brought({ comparisons }: PageData, reader: Reader): Child {
  const whole = comparisons.data?.at(-1);
  return [
    h('h3', {}, 'What it brought'),
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
            ['figure', 'difference', 'verdict'],
            measuresOf(whole.answer).map((measure) => [
              shownAs(measure.measure).name,
              differenceText(measure, reader),
              shownVerdict(measure.measure, measure.verdict),
            ]),
          ),
        ],
  ];
}

function nextPart({ progress: { data, missing } }: PageData, reader: Reader): Child {
  const progress = data?.[0];
  if (progress === undefined) return h('p', {}, missing?.why);
  const points = fittedPoints(progress);
  const chart = {
    title: 'R at X = 0, Ω',
    most: 1.08 * Math.max(1, ...points.map(({ radials }) => radials)),
    series: [{ points, style: { colour: '--after', widthPx: 3, dash: [], mark: 'disc' as const } }],
    curve: progress.curve.map(({ radials, resistanceOhm }) => ({ radials, value: resistanceOhm })),
    heightPx: CHART_PX.height,
  };
  return h(
    'section',
    {},
    h('h3', {}, 'Whether to go on'),
    h('p', {}, adviceSentence(progress)),
    points.length === 0 ? null : countChart(chart, CHART_PX.width, reader),
    points.length === 0 ? null : h('p', {}, fittedPointsWords(progress)),
  );
}

function sinceThen({ changes: { data } }: PageData): Child {
  if (data === null) return null;
  return h(
    'section',
    {},
    h('h3', {}, 'Since then'),
    h('p', {}, `${changeSentence(data.answer)} ${checkSentence(data.answer)}`),
  );
}
