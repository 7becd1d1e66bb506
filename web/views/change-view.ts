import { asSentence } from '../../src/formats/words.ts';
import type { App } from '../app.ts';
import { h, replace } from '../dom.ts';
import { changeSentence, chartFigure, checkSentence, isoNear, isoOf } from '../model/change-words.ts';
import { LiveWords } from '../parts/live-words.ts';
import { proseList } from '../parts/prose-list.ts';
import { lineKey } from '../pictures/key.ts';
import { EXPECTED, LIMIT, SEEN, SMOOTHED, TimeLine } from '../pictures/time-line.ts';
import { answerView } from './answer-view.ts';
import { causesTable, evidence, notesOf, notesTable, visitsTable } from './change-tables.ts';
import type { View } from './view.ts';

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
            day: (timeMs) => reader.date(isoNear(changes, timeMs)),
          },
          [() => replace(figures, visitsTable(changes, reader))],
        ),
      );
      return [
        h('p', { class: 'answer' }, changeSentence(answer)),
        h('p', { class: 'answer-second' }, checkSentence(answer)),
        answer.standApart.map(({ meaning }) => h('p', {}, meaning)),
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
  return `Visit ${changes.visits[index]}, ${reader.time(isoOf(changes, index))}: ${figures.slice(0, TOLD_AT_STAKE).join('; ')}.`;
}

/** More figures than these are a mouthful. */
const TOLD_AT_STAKE = 3;
