import type { BandComparison } from '../core/proof/compare-visits.ts';
import { type Found, notesOf, SAME_FIELD } from '../core/proof/comparison-document.ts';
import { TABLE_FOOT } from '../core/proof/comparison-notes.ts';
import { headline } from '../core/proof/headline.ts';
import { strengthWords } from '../core/proof/overall-words.ts';
import { SIDES } from '../core/proof/pair.ts';
import { formatLength } from '../core/quantity.ts';
import { asSentence, plural } from '../formats/words.ts';
import { compareTable } from './compare-table.ts';
import type { ComparisonAsked } from './compared-sides.ts';
import { numbered } from './numbers.ts';

/** A comparison for people: a sentence, a table for each band, then what a doubter should read. */
export function comparisonText(found: Found & { readonly asked: ComparisonAsked }): string {
  const { asked } = found;
  const { sameField, isReversal } = asked;
  const bands = found.bands.flatMap(({ comparison, strength, overall }) => {
    const beside = { sameField, isReversal, strengthDecides: overall.basis === 'received strength' };
    const levels = strengthWords(strength, overall);
    return [
      found.bands.length > 1 && levels !== '' ? `${comparison.band.band}: ${levels}` : levels,
      `${headline(comparison, beside)}\n${sidesText(comparison, asked)}`,
      compareTable(comparison, sameField),
    ];
  });
  const notes = notesOf(found).map((note) => `- ${note}.`);
  return [sameField ? asSentence(SAME_FIELD) : '', ...bands, asSentence(TABLE_FOOT), notes.join('\n')]
    .filter((part) => part !== '')
    .join('\n\n');
}

const NAMED = { before: 'Before', after: 'After' };
const REVERSED = { before: 'Before, the new wires disconnected', after: 'After, connected' };

/** `Before: visits 5-6, 2024-06-08 to 2024-11-02, 24 radials, 144.0 m of wire. After: …` */
function sidesText({ sides }: BandComparison, { visits, site, isReversal }: ComparisonAsked): string {
  return SIDES.map((side) => {
    const labels = sides[side].map(({ visit: { label } }) => label);
    const known = visits.filter(({ label }) => labels.includes(label));
    const name = (isReversal ? REVERSED : NAMED)[side];
    const [first, last] = [known.at(0), known.at(-1)];
    if (first === undefined || last === undefined) {
      const shots = sides[side].reduce((sum, { visit }) => sum + visit.shotCount, 0);
      return `${name}: ${labels.join(', ')}, ${plural(shots, 'shot')}.`;
    }
    const numbers = [...new Set(known.map(({ visit }) => visit))];
    const days = [...new Set([first, last].map(({ time }) => time.slice(0, 10)))].join(' to ');
    if (isReversal) return `${name}: ${numbered('visit', numbers)}, ${days}.`;
    const { radials, wireM } = last.state;
    const field = `${plural(radials.length, 'radial')}, ${formatLength(wireM, site?.units ?? 'metric')} of wire`;
    return `${name}: ${numbered('visit', numbers)}, ${days}, ${field}.`;
  }).join(' ');
}
