import type { Quantity } from '../../src/core/quantity-with-uncertainty.ts';
import type { ProgressAnswer, ProgressStepAnswer } from '../../src/formats/page-data.ts';
import { asSentence } from '../../src/formats/words.ts';
import type { App } from '../app.ts';
import { type Child, h } from '../dom.ts';
import {
  adviceSentence,
  fittedPoints,
  fittedPointsWords,
  lastStepSentence,
  nextWords,
  parameterWords,
  plusMinus,
} from '../model/progress-words.ts';
import type { LineStyle } from '../model/shown.ts';
import { Choice } from '../parts/choice.ts';
import { proseList } from '../parts/prose-list.ts';
import { dataTable } from '../parts/table.ts';
import { type CountPoint, type CountSeries, countChart } from '../pictures/count-chart.ts';
import { lineKey } from '../pictures/key.ts';
import { responsive } from '../pictures/responsive.ts';
import type { Reader } from '../reader.ts';
import { answerView } from './answer-view.ts';
import type { View } from './view.ts';

const BY_R: LineStyle = { colour: '--after', widthPx: 3, dash: [], mark: 'disc' };
const BY_FIELD: LineStyle = { colour: '--line-1', widthPx: 3, dash: [], mark: 'diamond' };
const FITTED: LineStyle = { colour: '--grass', widthPx: 3, dash: [8, 5], mark: null };

/** Did that handful help? */
export function handfulView(app: App): View {
  const band = new Choice('Band', (name) => app.go({ band: name }));
  return answerView(
    app,
    (data) => data.progress,
    ({ answer: answers, reader }) => {
      const progress = answers.find((one) => one.band === app.address.band) ?? (answers[0] as ProgressAnswer);
      band.set(
        answers.map(({ band: value }) => ({ value, label: value })),
        progress.band,
      );
      return [
        h('p', { class: 'answer' }, adviceSentence(progress)),
        h('p', { class: 'answer-second' }, lastStepSentence(progress, reader)),
        answers.length > 1 ? h('div', { class: 'choices choices-row' }, band.element) : null,
        progress.steps.length === 0 ? null : [charts(progress, reader), worthPart(progress, reader)],
        progress.steps.length === 0 ? null : stepTable(progress, reader),
        reversalPart(progress),
        h('h2', {}, 'What this rests on'),
        proseList(
          [...modelSentences(progress, reader), ...progress.poorGuide, ...progress.notes].map(asSentence),
        ),
      ];
    },
  );
}

function worthPart(progress: ProgressAnswer, reader: Reader): Child {
  return [
    h('h2', {}, 'What the next wires are worth'),
    proseList([
      nextWords(progress.next, reader),
      `The site counts ${reader.number(progress.worthwhileDb, 2)} dB or more as worthwhile.`,
    ]),
  ];
}

function charts(progress: ProgressAnswer, reader: Reader): HTMLElement {
  const { steps, curve } = progress;
  const most =
    1.08 * Math.max(1, ...steps.map(({ radials }) => radials), ...curve.map(({ radials }) => radials));
  const column = (pick: (step: ProgressStepAnswer) => Quantity, perSi = 1): CountPoint[] =>
    steps.flatMap((step) => {
      const { value, expandedUncertainty } = pick(step);
      if (value === null) return [];
      const half = expandedUncertainty === null ? null : expandedUncertainty * perSi;
      return [{ radials: step.radials, value: value * perSi, half }];
    });
  const chart = (title: string, series: readonly CountSeries[], fitted: typeof curve = []): HTMLElement =>
    responsive((width) =>
      countChart(
        {
          title,
          series,
          most: fitted.length > 0 ? most : 1.08 * Math.max(1, ...steps.map(({ radials }) => radials)),
          curve: fitted.map(({ radials, resistanceOhm }) => ({ radials, value: resistanceOhm })),
        },
        width,
        reader,
      ),
    );
  const key = (style: LineStyle, words: string): HTMLElement => h('li', {}, lineKey(style), words);
  return h(
    'div',
    { class: 'two-pictures' },
    h(
      'figure',
      {},
      chart('R at X = 0, Ω', [{ points: fittedPoints(progress), style: BY_R }], curve),
      h(
        'ul',
        { class: 'keys' },
        key(BY_R, 'measured, with its uncertainty'),
        curve.length === 0 ? null : key(FITTED, 'fitted, wires of the last length'),
      ),
      h(
        'figcaption',
        {},
        `The lower R at X = 0, the less the ground takes. Where the curve is flat, more wire buys nothing.${fittedPointsWords(progress)}`,
      ),
    ),
    h(
      'figure',
      {},
      chart('Gain since the first wires, dB', [
        { points: column((step) => step.gainDb), style: BY_R },
        { points: column((step) => step.strengthDb), style: BY_FIELD },
      ]),
      h('ul', { class: 'keys' }, key(BY_R, 'by R, a lower estimate'), key(BY_FIELD, 'by received strength')),
      h('figcaption', {}, 'Received strength outranks R: it is what the antenna is for.'),
    ),
    h(
      'figure',
      {},
      chart('Resonance, MHz', [{ points: column((step) => step.resonanceHz, 1e-6), style: BY_R }]),
      h('figcaption', {}, 'Radials shift the resonance a little, which is neither good nor bad.'),
    ),
  );
}

function stepTable({ steps }: ProgressAnswer, reader: Reader): Child {
  const isCorrected = steps.some(({ soilCorrectionOhm = 0 }) => soilCorrectionOhm !== 0);
  return dataTable(
    'One row a handful',
    [
      'since',
      'radials',
      'wire',
      'visits',
      'R at X = 0, Ω',
      ...(isCorrected ? ['for moisture, Ω'] : []),
      'X = 0, MHz',
      'SWR ≤ 2, kHz',
      isCorrected ? 'dB by R so corrected' : 'dB by R',
      'dB by strength',
    ],
    steps.map((step) => [
      step.time === null ? '–' : reader.time(step.time),
      step.radials,
      reader.length(step.wireM),
      step.visits,
      plusMinus(step.resistanceAtResonanceOhm, 1, 1, reader),
      ...(isCorrected ? [reader.signed(step.soilCorrectionOhm ?? 0, 1)] : []),
      plusMinus(step.resonanceHz, 1e-6, 3, reader),
      plusMinus(step.swr2BandwidthHz, 1e-3, 0, reader),
      plusMinus(step.gainDb, 1, 2, reader),
      step.strengthPlaces === 0
        ? '–'
        : `${plusMinus(step.strengthDb, 1, 2, reader)} (${step.strengthPlaces})`,
    ]),
  );
}

function reversalPart({ reversal }: ProgressAnswer): Child {
  if (reversal === null) return null;
  return [
    h('h2', {}, 'R does not show the last step: turn it back once, and see'),
    h('p', {}, 'A reversal would tell, one line after the other:'),
    h('pre', { tabindex: 0 }, reversal.join('\n')),
  ];
}

function modelSentences({ model }: ProgressAnswer, reader: Reader): string[] {
  if (model.name === null) return [];
  const parameters = Object.entries(model.parameters).map(([name, quantity]) =>
    parameterWords(name, quantity, reader),
  );
  return [
    `The curve is of ${model.name}: ${parameters.join(', ')}`,
    ...(model.gainMeans === null ? [] : [`its gains are ${model.gainMeans}`]),
    ...(model.whyNotGround === null
      ? []
      : [`the fit of soil and ground loss was not used: ${model.whyNotGround}`]),
  ];
}
