import { percentWords } from './cause-words.ts';
import type { DiagnosedCause } from './diagnosis.ts';

/**
 * What a cause would have done, with its uncertainty. A count within reach of the least there can be is told by the most it
 * may be: its spread is cut off there, and would read as tight.
 *
 * @param number - writes a figure with so many decimals
 * @returns null for a cause without a size, and for one so unlikely that its size would say nothing
 */
export function estimateWords(
  { probability, estimate }: Pick<DiagnosedCause, 'probability' | 'estimate'>,
  number: (value: number, decimals: number) => string,
): string | null {
  if (estimate === null || percentWords(probability) === percentWords(0)) return null;
  const { name, value, unit, expandedUncertainty } = estimate;
  const isCount = unit === 'count';
  if (isCount && value - expandedUncertainty <= 1) {
    return `${name} up to ${number(Math.ceil(value + expandedUncertainty), 0)}`;
  }
  const most = isCount ? 1 : 4;
  const decimals = Math.min(
    most,
    Math.max(0, 1 - Math.floor(Math.log10(Math.max(1e-4, expandedUncertainty)))),
  );
  const suffix = unit === '1' || isCount ? '' : ` ${unit}`;
  return `${name} ${number(value, decimals)} ± ${number(expandedUncertainty, decimals)}${suffix}`;
}
