import { percentWords } from '../../src/core/drift/cause-words.ts';
import { estimateWords } from '../../src/core/drift/estimate-words.ts';
import type { Reading } from '../../src/core/record.ts';
import type { DiagnoseAnswer, PageChanges, PageData } from '../../src/formats/page-data.ts';
import { asSentence } from '../../src/formats/words.ts';
import { type Child, h } from '../dom.ts';
import { causeWords, chartFigure, FEATURES, isoOf } from '../model/change-words.ts';
import { proseList } from '../parts/prose-list.ts';
import { dataTable } from '../parts/table.ts';
import { NONE, type Reader } from '../reader.ts';

/** Causes less likely than this get no evidence spelled out. */
const WORTH_EVIDENCE = 0.02;

export function causesTable({ causes }: DiagnoseAnswer, reader: Reader): HTMLElement {
  return dataTable(
    'What may be behind it',
    ['cause', 'probability', 'if so'],
    causes.map((cause) => [
      causeWords(cause),
      h('span', {}, percentWords(cause.probability), chanceBar(cause.probability)),
      estimateWords(cause, reader.number) ?? NONE,
    ]),
  );
}

function chanceBar(probability: number): HTMLElement {
  const bar = h('span', { class: 'chance-bar' });
  bar.style.width = `${(100 * probability).toFixed(1)}%`;
  return h('span', { class: 'chance', 'aria-hidden': 'true' }, bar);
}

export function evidence({ causes }: DiagnoseAnswer): Child {
  return causes
    .filter(({ probability }, i) => i === 0 || probability >= WORTH_EVIDENCE)
    .map((told) => [
      h('h2', {}, `Why: ${causeWords(told)}`),
      proseList([...told.evidence, `to check: ${told.checkFirst}`].map(asSentence)),
    ]);
}

/** What was noted meanwhile; moisture and temperature are conditions, not happenings. */
export function notesOf({ readings }: PageData, { timeMs }: PageChanges): Reading[] {
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

export function notesTable(notes: readonly Reading[], reader: Reader): Child {
  if (notes.length === 0) return null;
  return dataTable(
    'Noted since then',
    ['when', 'what', 'of', 'figure', 'words'],
    notes.map(({ time, kind, subject, value, text }) => [
      reader.time(time),
      READING_WORDS[kind],
      subject ?? '–',
      value === null ? '–' : figureOf(kind, value, reader),
      text === '' ? '–' : text,
    ]),
  );
}

/** Readings by the names that people give them. */
const READING_WORDS: Readonly<Record<Reading['kind'], string>> = {
  'soil-moisture': 'soil moisture',
  rain: 'rain',
  temperature: 'temperature',
  'field-strength': 'received strength',
  'joint-resistance': 'resistance of a joint',
  'radial-current': 'current in a radial',
  inspection: 'inspection',
  repair: 'repair',
  text: 'note',
};

function figureOf(kind: Reading['kind'], value: number, reader: Reader): string {
  if (kind === 'rain') return reader.small(value);
  if (kind === 'joint-resistance') return `${reader.number(value * 1e3, 0)} mΩ`;
  if (kind === 'radial-current') return `${reader.number(value * 1e3, 0)} mA`;
  return reader.number(value, 2);
}

/** The newest visits in figures; a year of hours would be no table. */
const MOST_ROWS = 40;

export function visitsTable(changes: PageChanges, reader: Reader): Child {
  const { charts, visits } = changes;
  if (visits.length === 0) return null;
  const signals = new Set(charts.flatMap((chart) => [...chart.signals]));
  const first = Math.max(0, visits.length - MOST_ROWS);
  const rows = visits.slice(first).map((visit, k) => {
    const index = first + k;
    return [
      `visit ${visit}`,
      reader.time(isoOf(changes, index)),
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
