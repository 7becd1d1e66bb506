import type { SafetyAnswer } from './page-data/safety-answer.ts';
import { listed } from './words.ts';

/** Which levels of the set were read in its source, and which were not and so want checking. */
export function levelsWords({ levels, readOn }: SafetyAnswer['limits']): string {
  const { read, recalled } = levels;
  if (recalled.length === 0) return `All its levels were read in the source on ${readOn}.`;
  if (read.length === 0)
    return 'All its levels are recalled and were not read in the source: check them before you rely on them.';
  return `Read in the source on ${readOn}: ${stretchWords(read)}. Recalled, so check them before you rely on them: ${stretchWords(recalled)}.`;
}

function stretchWords(stretches: SafetyAnswer['limits']['levels']['read']): string {
  const kinds = new Map<string, string[]>();
  for (const { levels, field, fromMhz, toMhz } of stretches) {
    const of = field === null ? '' : ` of the ${field} field`;
    const kind = levels === 'averaged' ? `averaged levels${of}` : `levels${of} that hold at every moment`;
    kinds.set(kind, [...(kinds.get(kind) ?? []), `${fromMhz} to ${toMhz}`]);
  }
  return [...kinds].map(([kind, ranges]) => `${kind}, ${listed(ranges)} MHz`).join('; ');
}
