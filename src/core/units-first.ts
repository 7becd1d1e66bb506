import type { UnitSystem } from './quantity.ts';

/** A metric figure with the imperial one in brackets behind it. */
const BOTH = /(\d[\d.]* (?:mm|m|km)) \(([^()]+ (?:in|ft|miles))\)/gu;

/** A sentence that gives its figures in both systems, metric first, with those of the reader's system in front. */
export function unitsFirst(sentence: string, units: UnitSystem): string {
  return units === 'metric' ? sentence : sentence.replaceAll(BOTH, '$2 ($1)');
}
