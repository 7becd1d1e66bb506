import { causeWords, percentWords, sureWords } from '../core/drift/cause-words.ts';
import type { DiagnosedCause, Diagnosis } from '../core/drift/diagnosis.ts';
import { estimateWords } from '../core/drift/estimate-words.ts';
import { figure, table } from './answer.ts';

/** The public JSON of `diagnose`. */
export function diagnosisJson({ causes, before, after, ranges, cannotTell }: Diagnosis): object {
  return { causes, before, after, ranges, cannotTell };
}

/** The answer in a sentence, the table of causes, then the evidence. */
export function diagnosisText({ causes, cannotTell }: Diagnosis): string {
  const [top, second] = causes as [DiagnosedCause, DiagnosedCause];
  const sure = sureWords(top.probability);
  const rival = second.probability >= 0.05 ? `; ${percentWords(second.probability)} for ${second.cause}` : '';
  const size = estimateWords(top, figure);
  const estimate = size === null ? '' : ` (${size})`;
  return [
    `${sure} ${causeWords(top.cause, top.estimate?.value ?? null)}${estimate}: ${percentWords(top.probability)} sure${rival}.`,
    `Check first: ${top.checkFirst}.`,
    '',
    table([
      ['cause', 'probability', 'if so'],
      ...causes.map((told) => [
        told.cause,
        percentWords(told.probability),
        estimateWords(told, figure) ?? '-',
      ]),
    ]),
    '',
    ...causes
      .filter(({ probability }, i) => i === 0 || probability >= 0.02)
      .flatMap(({ cause, evidence }) => [`${cause}:`, ...evidence.map(listed)]),
    'Cannot be told:',
    ...cannotTell.map(listed),
  ].join('\n');
}

function listed(sentence: string): string {
  return `  - ${sentence}`;
}
