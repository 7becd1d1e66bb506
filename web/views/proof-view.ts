import { UserError } from '../../src/core/user-error.ts';
import type { CompareAnswer, PageComparison } from '../../src/formats/page-data.ts';
import { asSentence } from '../../src/formats/words.ts';
import type { App } from '../app.ts';
import { type Child, h, keepingFocus, replace } from '../dom.ts';
import {
  bandsOf,
  comparisonSentence,
  handfulKey,
  handfulName,
  isSoilCorrected,
  type NamedComparison,
  strengthSentence,
} from '../model/comparison-words.ts';
import { comparePair } from '../model/free-pair.ts';
import type { Layer } from '../model/layers.ts';
import { layerName } from '../model/sweep-words.ts';
import { answerTo } from '../model/told.ts';
import { Choice } from '../parts/choice.ts';
import { proseList } from '../parts/prose-list.ts';
import type { Reader } from '../reader.ts';
import { NO_LOGBOOK, notYet } from './not-yet.ts';
import { PairChoice, type TwoSweeps } from './pair-choice.ts';
import { measureFigure, measureTable, strengthFigure } from './proof-pictures.ts';
import type { View } from './view.ts';

const PAIR = 'pair';

/** Is the improvement real? Of each handful of wires, and of any two sweeps. */
export function proofView(app: App): View {
  const element = h('div', {});
  const change = new Choice('Which change', (value) => app.go({ change: value }));
  const pair = new PairChoice(app);
  const band = new Choice('Band', (name) => app.go({ band: name }));

  const update = (): void => {
    const handfuls = app.data?.comparisons.data ?? [];
    const sweeps = pair.update();
    const chosen = handfuls.find((one) => handfulKey(one) === app.address.change);
    const isPair = sweeps !== null && chosen === undefined && (handfuls.length === 0 || asksPair(app));
    const handful = isPair ? undefined : (chosen ?? handfuls[0]);
    change.set(
      [
        ...handfuls.map((one) => ({ value: handfulKey(one), label: handfulName(one, app.reader) })),
        ...(sweeps === null ? [] : [{ value: PAIR, label: 'any two sweeps' }]),
      ],
      handful === undefined ? PAIR : handfulKey(handful),
    );
    if (handful === undefined && !isPair) {
      replace(element, notYet(app.data?.comparisons.missing ?? NO_LOGBOOK));
      return;
    }
    const named =
      handful === undefined ? pairAnswer(app, sweeps as TwoSweeps) : ofHandful(handful, app.reader);
    // Lists that are put elsewhere lose the focus, so that it is kept from before that on.
    keepingFocus(() => {
      const choices = h('div', { class: 'choices' }, change.element, isPair ? pair.element : null);
      if (named instanceof UserError) {
        replace(element, h('p', { class: 'answer' }, asSentence(named.message)), choices);
        return;
      }
      const bands = bandsOf(named.answer);
      const shown = bands.find((one) => one.band === app.address.band) ?? (bands[0] as CompareAnswer);
      band.set(
        bands.map(({ band: value }) => ({ value, label: value })),
        shown.band,
      );
      if (bands.length > 1) choices.append(band.element);
      replace(element, comparisonParts(named.name, shown, choices, app.reader));
    });
  };
  return { element, update, destroy: () => {} };
}

/** A link that names two sweeps asks for them, unless it names a handful. */
function asksPair({ address: { change, visit, before } }: App): boolean {
  return change === PAIR || (change === null && visit !== null && before !== null && before !== 'none');
}

function ofHandful(handful: PageComparison, reader: Reader): NamedComparison {
  return { name: handfulName(handful, reader), answer: handful.answer };
}

/** Comparisons of the sweeps as they are now; newer data bring new layers. */
const compared = {
  metric: new WeakMap<Layer, Map<Layer, CompareAnswer | UserError>>(),
  imperial: new WeakMap<Layer, Map<Layer, CompareAnswer | UserError>>(),
};

function pairAnswer(app: App, { before, after }: TwoSweeps): NamedComparison | UserError {
  const inUnits = compared[app.reader.units];
  const known = inUnits.get(after) ?? new Map<Layer, CompareAnswer | UserError>();
  inUnits.set(after, known);
  const answer = known.get(before) ?? answerOf(app, before, after);
  known.set(before, answer);
  if (answer instanceof UserError) return answer;
  return {
    name: `from ${layerName(before, app.reader)} to ${layerName(after, app.reader)}`,
    answer: answerTo(app.reader, answer),
  };
}

function answerOf({ data, layers, reader }: App, before: Layer, after: Layer): CompareAnswer | UserError {
  try {
    return comparePair({ data, layers, before, after, units: reader.units });
  } catch (error) {
    if (error instanceof UserError) return error;
    throw error;
  }
}

function comparisonParts(name: string, band: CompareAnswer, choices: HTMLElement, reader: Reader): Child {
  return [
    h('p', { class: 'answer' }, comparisonSentence(name, band, reader)),
    h('p', { class: 'answer-second' }, strengthSentence(band, reader)),
    choices,
    h('div', { class: 'two-pictures' }, measureFigure(band, reader), strengthFigure(band, reader)),
    measureTable(band, reader),
    isSoilCorrected(band) ? h('p', {}, SOIL_WORDS) : null,
    h('h2', {}, 'What a doubter should read'),
    proseList(band.notes.map(asSentence)),
  ];
}

const SOIL_WORDS =
  'Wet soil lowers R as more wire does. Where the moisture was noted on both sides, the difference is therefore not ' +
  'plainly after minus before: what the change of moisture alone would have done, learnt from visits over one and ' +
  'the same field, is taken off first, and its own uncertainty is added.';
