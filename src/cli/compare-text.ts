import type { BandComparison } from '../core/proof/compare-visits.ts';
import { headline, SHOWN_AS } from '../core/proof/comparison-words.ts';
import type { OverallVerdict } from '../core/proof/overall.ts';
import type { StrengthComparison } from '../core/proof/strength.ts';
import type { Quantity } from '../core/quantity-with-uncertainty.ts';
import { figure, table } from './answer.ts';
import { type Found, notesOf } from './compare-json.ts';

/** A comparison for people: a sentence, a table for each band, then what a doubter should read. */
export function comparisonText(found: Found): string {
  const { comparisons, strength, overall } = found;
  const parts = comparisons.flatMap((comparison) => [headline(comparison), bandTable(comparison)]);
  if (strength !== null && strength.places.length > 0) parts.unshift(strengthText(strength, overall));
  const notes = notesOf(found).map((note) => `- ${note}.`);
  return [...parts, notes.join('\n')].join('\n\n');
}

function bandTable({ measures }: BandComparison): string {
  const rows = measures.map(({ measure, before, after, difference, verdict }) => {
    const shown = SHOWN_AS[measure];
    const inUnit = (value: number | null, perSi: number): number | null =>
      value === null ? null : value * perSi;
    const signed = (quantity: Quantity): string => {
      const text = figure(inUnit(quantity.value, shown.differencePerSi), shown.differenceDecimals);
      return quantity.value !== null && quantity.value > 0 ? `+${text}` : text;
    };
    return [
      shown.unit === '' ? shown.name : `${shown.name}, ${shown.unit}`,
      figure(inUnit(before.value, shown.perSi), shown.decimals),
      figure(inUnit(after.value, shown.perSi), shown.decimals),
      signed(difference),
      figure(inUnit(difference.expandedUncertainty, shown.differencePerSi), shown.differenceDecimals),
      shown.differenceUnit,
      difference.expandedUncertainty === null ? '-' : difference.coverageFactor.toFixed(2),
      verdict,
    ];
  });
  return table([['', 'before', 'after', 'difference', '± U', '', 'k', 'verdict'], ...rows]);
}

function strengthText(strength: StrengthComparison, { agree, resistanceGainDb }: OverallVerdict): string {
  const { medianDb, expandedUncertaintyDb, spreadDb, places, verdict } = strength;
  const interval = expandedUncertaintyDb === null ? '' : ` ± ${expandedUncertaintyDb.toFixed(2)}`;
  const ofR =
    resistanceGainDb === null
      ? ''
      : `; the resistance alone tells ${resistanceGainDb.toFixed(2)} dB, a lower estimate`;
  const both =
    agree === null ? '' : agree ? ', and both agree' : ', and the two disagree: look for what else changed';
  return (
    `Received strength: ${verdict}. ${medianDb !== null && medianDb > 0 ? '+' : ''}${figure(medianDb, 2)}${interval} dB at ` +
    `${places.length} places, which differ by ${figure(spreadDb, 2)} dB among themselves${ofR}${both}. Strength outranks resistance.`
  );
}
