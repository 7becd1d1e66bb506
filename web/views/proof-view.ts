import type { CompareAnswer, ComparedBand, PageComparison } from '../../src/formats/page-data.ts';
import { asSentence } from '../../src/formats/words.ts';
import type { App } from '../app.ts';
import { type Child, h } from '../dom.ts';
import {
  bandsOf,
  comparisonName,
  comparisonSentence,
  differenceText,
  measuresOf,
  shownAs,
  strengthSentence,
} from '../model/comparison-words.ts';
import { Choice } from '../parts/choice.ts';
import { proseList } from '../parts/prose-list.ts';
import { dataTable } from '../parts/table.ts';
import { type Interval, intervalPlot } from '../pictures/interval-plot.ts';
import { responsive } from '../pictures/responsive.ts';
import type { Reader } from '../reader.ts';
import { answerView } from './answer-view.ts';
import type { View } from './view.ts';

/** A figure this many uncertainties away from zero is beyond all doubt; the scale need not go further. */
const FARTHEST = 6;

/** Is the improvement real? */
export function proofView(app: App): View {
  let chosen = 0;
  const change = new Choice('Which change', (value) => {
    chosen = Number(value);
    view.update();
  });
  const band = new Choice('Band', (name) => app.go({ band: name }));
  const view = answerView(
    app,
    (data) => data.comparisons,
    ({ answer: comparisons, reader }) => {
      const comparison = comparisons[chosen] ?? comparisons[0];
      if (comparison === undefined) return null;
      const bands = bandsOf(comparison.answer);
      const shown = bands.find((one) => one.band === app.address.band) ?? (bands[0] as ComparedBand);
      change.set(
        comparisons.map((one, i) => ({ value: String(i), label: comparisonName(one, reader) })),
        String(comparisons.indexOf(comparison)),
      );
      band.set(
        bands.map(({ band: value }) => ({ value, label: value })),
        shown.band,
      );
      const choices = [change.element, ...(bands.length > 1 ? [band.element] : [])];
      return comparisonParts(comparison, shown, choices, reader);
    },
  );
  return view;
}

function comparisonParts(
  comparison: PageComparison,
  band: ComparedBand,
  choices: readonly HTMLElement[],
  reader: Reader,
): Child {
  const { answer } = comparison;
  return [
    h('p', { class: 'answer' }, comparisonSentence(comparison, band, reader)),
    h('p', { class: 'answer-second' }, strengthSentence(answer, reader)),
    h('div', { class: 'choices choices-row' }, choices),
    h('div', { class: 'two-pictures' }, measureFigure(band, reader), strengthFigure(answer, reader)),
    measureTable(band, reader),
    h('h2', {}, 'What a doubter should read'),
    proseList(answer.notes.map(asSentence)),
  ];
}

function measureFigure(band: ComparedBand, reader: Reader): HTMLElement {
  return h(
    'figure',
    {},
    responsive((width) =>
      intervalPlot(measureIntervals(band, reader), width, {
        label: 'in units of its own expanded uncertainty',
        format: (value, decimals) => reader.signed(value, decimals),
        limit: FARTHEST,
      }),
    ),
    h(
      'figcaption',
      {},
      'Each figure after minus before, measured by its own uncertainty: a bar that touches the heavy line shows nothing. ' +
        'Triangle up: improved; triangle down: worse; round: not shown, or neither better nor worse.',
    ),
  );
}

function measureIntervals(band: ComparedBand, reader: Reader): Interval[] {
  return measuresOf(band).map((measure) => {
    const { value, expandedUncertainty: u } = measure.difference;
    const judged = value !== null && u !== null && u > 0;
    return {
      name: shownAs(measure.measure).name,
      value: judged ? value / u : null,
      half: judged ? 1 : null,
      text: differenceText(measure, reader),
      verdict: measure.verdict,
    };
  });
}

function strengthFigure({ strength }: CompareAnswer, reader: Reader): Child {
  if (strength === null || strength.places.length === 0) return null;
  const rows: Interval[] = strength.places.map(({ place, differenceDb, readingsBefore, readingsAfter }) => ({
    name: place,
    value: differenceDb,
    half: null,
    text: `${reader.signed(differenceDb, 2)} dB of ${readingsBefore} and ${readingsAfter} readings`,
    verdict: 'not shown',
  }));
  const all: Interval = {
    name: 'all places, median',
    value: strength.medianDb,
    half: strength.expandedUncertaintyDb,
    text: `${reader.signed(strength.medianDb, 2)} dB`,
    verdict: strength.verdict,
  };
  return h(
    'figure',
    {},
    responsive((width) =>
      intervalPlot([...rows, all], width, {
        label: 'received strength, dB',
        format: (value, decimals) => reader.signed(value, decimals),
      }),
    ),
    h('figcaption', {}, 'Received strength after minus before, at each place that was read on both sides.'),
  );
}

function measureTable(band: ComparedBand, reader: Reader): HTMLElement {
  const rows = measuresOf(band).map((measure) => {
    const { name, unit, perSi, decimals } = shownAs(measure.measure);
    const figure = (value: number | null): string =>
      reader.number(value === null ? null : value * perSi, decimals);
    return [
      unit === '' ? name : `${name}, ${unit}`,
      figure(measure.before.value),
      figure(measure.after.value),
      differenceText(measure, reader),
      measure.verdict,
      measure.meaning,
    ];
  });
  return dataTable(
    `Before and after on ${band.band}`,
    ['figure', 'before', 'after', 'difference', 'verdict', 'what it means'],
    rows,
  );
}
