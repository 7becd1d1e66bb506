import { causeWords, percentWords, sureWords } from '../core/drift/cause-words.ts';
import type { DiagnosedCause, Diagnosis, Estimate } from '../core/drift/diagnosis.ts';
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
  const estimate = top.estimate === null ? '' : ` (${estimateText(top.estimate)})`;
  return [
    `${sure} ${causeWords(top.cause, top.estimate?.value ?? null)}${estimate}: ${percentWords(top.probability)} sure${rival}.`,
    `Check first: ${top.checkFirst}.`,
    '',
    table([
      ['cause', 'probability', 'if so'],
      ...causes.map(({ cause, probability, estimate: own }) => [
        cause,
        percentWords(probability),
        own === null ? '-' : estimateText(own),
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

function estimateText({ name, value, unit, expandedUncertainty }: Estimate): string {
  const most = unit === 'count' ? 1 : 4;
  const digits = Math.min(most, Math.max(0, 1 - Math.floor(Math.log10(Math.max(1e-4, expandedUncertainty)))));
  const suffix = unit === '1' || unit === 'count' ? '' : ` ${unit}`;
  return `${name} ${figure(value, digits)} ± ${figure(expandedUncertainty, digits)}${suffix}`;
}
