import type { CauseName } from '../core/drift/cause.ts';
import type { DiagnosedCause, Diagnosis, Estimate } from '../core/drift/diagnosis.ts';
import { table } from './answer.ts';

/** What each cause is called in a sentence. */
const WORDS: Readonly<Record<CauseName, string>> = {
  none: 'nothing changed beyond what this site does by itself',
  'soil-moisture': 'the soil is wetter or drier',
  'series-joint': 'a joint in the common path has gained resistance',
  'lost-radials': 'radials have lost contact',
  'element-length': 'the element’s length has changed, or something loads it',
  feedline: 'the feed line has become lossier or longer',
  intermittent: 'a contact comes and goes',
  instrument: 'the instrument or its calibration has changed',
};

/** The public JSON of `diagnose`. */
export function diagnosisJson({ causes, before, after, cannotTell }: Diagnosis): object {
  return { causes, before, after, cannotTell };
}

/** The answer in a sentence, the table of causes, then the evidence. */
export function diagnosisText({ causes, cannotTell }: Diagnosis): string {
  const [top, second] = causes as [DiagnosedCause, DiagnosedCause];
  const sure = top.probability >= 0.9 ? 'Most likely' : top.probability >= 0.6 ? 'Probably' : 'Perhaps';
  const rival = second.probability >= 0.05 ? `; ${percent(second.probability)} for ${second.cause}` : '';
  const estimate = top.estimate === null ? '' : ` (${estimateText(top.estimate)})`;
  return [
    `${sure} ${WORDS[top.cause]}${estimate}: ${percent(top.probability)} sure${rival}.`,
    `Check first: ${top.checkFirst}.`,
    `Cannot be told: ${cannotTell.join('; ')}.`,
    '',
    table([
      ['cause', 'probability', 'if so'],
      ...causes.map(({ cause, probability, estimate: figure }) => [
        cause,
        percent(probability),
        figure === null ? '-' : estimateText(figure),
      ]),
    ]),
    '',
    ...causes
      .filter(({ probability }, i) => i === 0 || probability >= 0.02)
      .flatMap(({ cause, evidence }) => [`${cause}:`, ...evidence.map((sentence) => `  - ${sentence}`)]),
  ].join('\n');
}

function estimateText({ name, value, unit, expandedUncertainty }: Estimate): string {
  const digits = Math.min(4, Math.max(0, 1 - Math.floor(Math.log10(Math.max(1e-4, expandedUncertainty)))));
  const suffix = unit === '1' || unit === 'count' ? '' : ` ${unit}`;
  return `${name} ${value.toFixed(digits)} ± ${expandedUncertainty.toFixed(digits)}${suffix}`;
}

function percent(probability: number): string {
  return `${Math.round(100 * probability)} %`;
}
