import type { Quantity } from '../quantity-with-uncertainty.ts';
import type { Measure } from './figures.ts';
import { placeOf, signedTo, textTo } from './rounding.ts';
import type { Verdict } from './verdict.ts';

/** How a figure is shown to people: its name, its unit and how many units make one SI unit. */
export interface ShownAs {
  readonly name: string;
  readonly unit: string;
  readonly perSi: number;
  readonly decimals: number;
  readonly differenceUnit: string;
  readonly differencePerSi: number;
  readonly differenceDecimals: number;
}

const plain = (name: string, unit: string, decimals: number): ShownAs => ({
  name,
  unit,
  perSi: 1,
  decimals,
  differenceUnit: unit,
  differencePerSi: 1,
  differenceDecimals: decimals,
});

/** How each figure is shown. */
export const SHOWN_AS: Readonly<Record<Measure, ShownAs>> = {
  resonanceHz: {
    ...plain('resonance', 'MHz', 4),
    perSi: 1e-6,
    differenceUnit: 'kHz',
    differencePerSi: 1e-3,
    differenceDecimals: 1,
  },
  resistanceAtResonanceOhm: plain('R at X = 0', 'ohm', 2),
  minSwr: plain('least SWR', '', 3),
  worstSwr: plain('worst SWR', '', 3),
  meanReturnLossDb: plain('mean return loss', 'dB', 2),
  swr2BandwidthHz: {
    ...plain('bandwidth at 2:1', 'kHz', 1),
    perSi: 1e-3,
    differencePerSi: 1e-3,
  },
  qualityFactor: plain('Q', '', 2),
};

const OF_LOSS: ReadonlySet<string> = new Set<Measure>(['resistanceAtResonanceOhm']);
const OF_THE_MATCH: ReadonlySet<string> = new Set<Measure>(['minSwr', 'worstSwr', 'meanReturnLossDb']);

/**
 * The verdict as people are told it: a match is never called an improvement, nor is what has no better side.
 *
 * @param sameField - no wire was laid or lifted between the sides, so that nothing was improved
 */
export function shownVerdict(measure: string, verdict: Verdict, sameField = false): string {
  if (OF_LOSS.has(measure)) return sameField && verdict !== 'not shown' ? 'changed' : verdict;
  if (!OF_THE_MATCH.has(measure)) return '-';
  return verdict === 'not shown' ? verdict : verdict === 'improved' ? 'better match' : 'worse match';
}

/** A value with its expanded uncertainty, `-5.8 ± 1.4 (k = 2.2)`, with a sign. */
export function plusMinus(quantity: Quantity, perSi: number, otherwise: number): string {
  const { value, expandedUncertainty, coverageFactor } = quantity;
  if (value === null) return '-';
  const known = expandedUncertainty === null ? null : expandedUncertainty * perSi;
  const place = placeOf(known, otherwise);
  const signed = signedTo(place, value * perSi);
  if (known === null) return `${signed} (uncertainty unknown)`;
  return `${signed} ± ${textTo(place, known)} (k = ${coverageFactor.toFixed(1)})`;
}
