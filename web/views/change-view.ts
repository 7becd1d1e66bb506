import { percentWords } from '../../src/core/drift/cause-words.ts';
import type { Reading } from '../../src/core/record.ts';
import type { DiagnoseAnswer, PageChanges, PageData } from '../../src/formats/page-data.ts';
import { asSentence } from '../../src/formats/words.ts';
import type { App } from '../app.ts';
import { type Child, h, replace } from '../dom.ts';
import {
  causeWords,
  changeSentence,
  chartFigure,
  checkSentence,
  estimateWords,
  FEATURES,
} from '../model/change-words.ts';
import { LiveWords } from '../parts/live-words.ts';
import { proseList } from '../parts/prose-list.ts';
import { dataTable } from '../parts/table.ts';
import { lineKey } from '../pictures/key.ts';
import { EXPECTED, LIMIT, SEEN, SMOOTHED, TimeLine } from '../pictures/time-line.ts';
import { NONE, type Reader } from '../reader.ts';
import { answerView } from './answer-view.ts';
import type { View } from './view.ts';

/** Causes less likely than this get no evidence spelled out. */
const WORTH_EVIDENCE = 0.02;

/** What changed? */
export function changeView(app: App): View {
  const words = new LiveWords();
  const readout = h('p', { class: 'stake-words' });
  const line = new TimeLine((index) => {
    const said = stakeWords(app, index);
    readout.textContent = said;
    words.say(said);
  });
  const view = answerView(
    app,
    (data) => data.changes,
    ({ answer: changes, data, reader }) => {
      const { answer } = changes;
      const notes = notesOf(data, changes);
      // The strips measure the room they get, so they are drawn when it stands in the page.
      const figures = h('div', {});
      queueMicrotask(() =>
        line.draw(
          {
            changes,
            reader,
            notesMs: notes.map(({ time }) => Date.parse(time)),
            day: (timeMs) => dayOf(timeMs, reader),
          },
          [() => replace(figures, visitsTable(changes, reader))],
        ),
      );
      return [
        h('p', { class: 'answer' }, changeSentence(answer)),
        h('p', { class: 'answer-second' }, checkSentence(answer)),
        words.element,
        h(
          'figure',
          { class: 'time-line' },
          keys(),
          line.element,
          readout,
          h(
            'figcaption',
            {},
            'Visits since the field last changed. The smoothed line may stray from what was expected as far as its limits; beyond them something changed. Upright dotted lines are notes.',
          ),
        ),
        causesTable(answer, reader),
        evidence(answer),
        notesTable(notes, reader),
        figures,
        h('h2', {}, 'What cannot be told'),
        proseList(answer.cannotTell.map(asSentence)),
      ];
    },
  );
  return {
    ...view,
    destroy: () => line.destroy(),
  };
}

function keys(): HTMLElement {
  const entry = (style: typeof SEEN, words: string): HTMLElement => h('li', {}, lineKey(style), words);
  return h(
    'ul',
    { class: 'keys' },
    entry(SEEN, 'measured'),
    entry(EXPECTED, 'expected from healthy visits'),
    entry(SMOOTHED, 'measured, smoothed'),
    entry(LIMIT, 'limits of the smoothed line'),
  );
}

function stakeWords({ data, reader }: App, index: number): string {
  const changes = data?.changes.data;
  if (changes === undefined || changes === null) return '';
  const figures = changes.charts.flatMap((chart) => {
    const { name, unit, perSi, decimals } = chartFigure(chart, changes.charts);
    const value = chart.values[index] ?? null;
    if (value === null) return [];
    const expected = chart.expected[index] ?? null;
    const hoped = expected === null ? '' : ` (expected ${reader.number(expected * perSi, decimals)})`;
    return [`${name} ${reader.number(value * perSi, decimals)}${unit === '' ? '' : ` ${unit}`}${hoped}`];
  });
  return `Visit ${changes.visits[index]}, ${dayOf(changes.timeMs[index], reader)}: ${figures.slice(0, TOLD_AT_STAKE).join('; ')}.`;
}

/** More figures than these are a mouthful. */
const TOLD_AT_STAKE = 3;

function dayOf(timeMs: number | undefined, reader: Reader): string {
  return reader.date(new Date(timeMs ?? 0).toISOString());
}

function causesTable({ causes }: DiagnoseAnswer, reader: Reader): HTMLElement {
  return dataTable(
    'What may stand behind it',
    ['cause', 'probability', 'if so'],
    causes.map((cause) => [
      causeWords(cause.cause),
      h('span', {}, percentWords(cause.probability), chanceBar(cause.probability)),
      estimateWords(cause, reader),
    ]),
  );
}

function chanceBar(probability: number): HTMLElement {
  const bar = h('span', { class: 'chance-bar' });
  bar.style.width = `${(100 * probability).toFixed(1)}%`;
  return h('span', { class: 'chance', 'aria-hidden': 'true' }, bar);
}

function evidence({ causes }: DiagnoseAnswer): Child {
  return causes
    .filter(({ probability }, i) => i === 0 || probability >= WORTH_EVIDENCE)
    .map(({ cause, evidence: sentences, checkFirst }) => [
      h('h2', {}, `Why: ${causeWords(cause)}`),
      proseList([...sentences, `to check: ${checkFirst}`].map(asSentence)),
    ]);
}

/** What was noted meanwhile; moisture and temperature are conditions, not happenings. */
function notesOf({ readings }: PageData, { timeMs }: PageChanges): Reading[] {
  const from = timeMs[0] ?? Number.POSITIVE_INFINITY;
  const happenings: readonly string[] = [
    'rain',
    'inspection',
    'repair',
    'joint-resistance',
    'radial-current',
    'text',
  ];
  return readings.filter(({ kind, time }) => happenings.includes(kind) && Date.parse(time) >= from);
}

function notesTable(notes: readonly Reading[], reader: Reader): Child {
  if (notes.length === 0) return null;
  return dataTable(
    'Noted meanwhile',
    ['when', 'what', 'of', 'figure', 'words'],
    notes.map(({ time, kind, subject, value, text }) => [
      reader.time(time),
      kind,
      subject ?? '–',
      value === null ? '–' : figureOf(kind, value, reader),
      text === '' ? '–' : text,
    ]),
  );
}

function figureOf(kind: Reading['kind'], value: number, reader: Reader): string {
  if (kind === 'rain') return `${reader.number(value * 1e3, 1)} mm`;
  if (kind === 'joint-resistance') return `${reader.number(value * 1e3, 0)} mΩ`;
  if (kind === 'radial-current') return `${reader.number(value * 1e3, 0)} mA`;
  return reader.number(value, 2);
}

/** The newest visits in figures; a year of hours would be no table. */
const MOST_ROWS = 40;

function visitsTable({ charts, visits, timeMs }: PageChanges, reader: Reader): Child {
  if (visits.length === 0) return null;
  const signals = new Set(charts.flatMap((chart) => [...chart.signals]));
  const first = Math.max(0, visits.length - MOST_ROWS);
  const rows = visits.slice(first).map((visit, k) => {
    const index = first + k;
    return [
      `visit ${visit}`,
      reader.time(new Date(timeMs[index] ?? 0).toISOString()),
      ...charts.map(({ feature, values, expected }) => {
        const { perSi, decimals } = FEATURES[feature];
        const figure = (value: number | null | undefined): string =>
          reader.number(value === null || value === undefined ? null : value * perSi, decimals);
        return `${figure(values[index])} of ${figure(expected[index])}`;
      }),
      signals.has(visit) ? 'signals' : NONE,
    ];
  });
  const head = charts.map((chart) => {
    const { name, unit } = chartFigure(chart, charts);
    return unit === '' ? name : `${name}, ${unit}`;
  });
  const caption =
    first === 0
      ? 'The visits, measured of expected'
      : `The newest ${MOST_ROWS} of ${reader.number(visits.length, 0)} visits, measured of expected`;
  return dataTable(caption, ['visit', 'when', ...head, 'charts'], rows.toReversed());
}
