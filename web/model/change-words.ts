import { CAUSES, type CauseName } from '../../src/core/drift/cause.ts';
import { causeWords as knownWords, sureWords } from '../../src/core/drift/cause-words.ts';
import { isoOnClock } from '../../src/formats/clock.ts';
import type { DiagnoseAnswer, PageChanges, PageChart } from '../../src/formats/page-data.ts';
import { asSentence } from '../../src/formats/words.ts';
import { nearestIndex } from './at-frequency.ts';

type Cause = DiagnoseAnswer['causes'][number];

export function causeWords({ cause, estimate }: Pick<Cause, 'cause' | 'estimate'>): string {
  const isKnown = (CAUSES as readonly string[]).includes(cause);
  return isKnown ? knownWords(cause as CauseName, estimate?.value ?? null) : cause;
}

/** How each feature is told: its name, its unit, its figures. */
export const FEATURES: Readonly<
  Record<
    PageChart['feature'],
    { readonly name: string; readonly unit: string; readonly perSi: number; readonly decimals: number }
  >
> = {
  resistanceAtResonanceOhm: { name: 'R at X = 0', unit: 'Ω', perSi: 1, decimals: 1 },
  resonanceHz: { name: 'Resonance', unit: 'kHz', perSi: 1e-3, decimals: 1 },
  qualityFactor: { name: 'Q', unit: '', perSi: 1, decimals: 2 },
  minSwr: { name: 'Lowest SWR', unit: '', perSi: 1, decimals: 3 },
  curve: { name: 'Distance of the whole curve from the healthy one', unit: '|Γ|', perSi: 1, decimals: 4 },
};

/** How a chart is told, with its band where the charts are of several. */
export function chartFigure(
  { band, feature }: PageChart,
  charts: readonly PageChart[],
): (typeof FEATURES)[PageChart['feature']] {
  const figure = FEATURES[feature];
  return charts.every((chart) => chart.band === band)
    ? figure
    : { ...figure, name: `${band}: ${figure.name}` };
}

/** The answer in a sentence: whether anything changed, and what most likely did. */
export function changeSentence({ causes, beyond, changeAt }: DiagnoseAnswer): string {
  const [top] = causes;
  if (top === undefined) return 'Nothing can be told.';
  const sure = sureWords(top.probability);
  const likely = `${sure} ${causeWords(top)}.`;
  const seen = beyond
    ? changeAt === null
      ? top.cause === 'none'
        ? 'A single figure of the newest visit is unusual; its whole curve is not.'
        : 'The newest visit is beyond what this site does by itself.'
      : `Something changed at visit ${changeAt}.`
    : changeAt === null
      ? beyond === null
        ? 'The charts cannot signal yet: that takes three healthy visits before the newest.'
        : 'Nothing shows beyond what this site does by itself.'
      : `A step shows at visit ${changeAt}; the newest visit is within what this site does by itself.`;
  const quiet = !beyond && changeAt === null && top.cause !== 'none';
  return quiet
    ? `${seen} If anything did: ${likely.charAt(0).toLowerCase()}${likely.slice(1)}`
    : `${seen} ${likely}`;
}

/** What to do first. */
export function checkSentence({ causes }: DiagnoseAnswer): string {
  const first = causes[0]?.checkFirst;
  return first === undefined ? '' : asSentence(`check first: ${first}`);
}

/** When a visit was, on the clock by which it was noted. */
export function isoOf({ timeMs, aheadMin }: PageChanges, index: number): string {
  return isoOnClock(timeMs[index] ?? 0, aheadMin[index] ?? 0);
}

/** A moment between visits, on the clock of the one nearest to it. */
export function isoNear({ timeMs, aheadMin }: PageChanges, moment: number): string {
  return isoOnClock(moment, aheadMin[nearestIndex(timeMs, moment)] ?? 0);
}
