import { plural } from '../plural.ts';
import type { Reading } from '../record.ts';
import type { BeforeAfter } from './pair.ts';
import { compareStrength, type StrengthComparison, type StrengthReading } from './strength.ts';

/** A received level with its time, ISO 8601 with zone. */
export interface TimedStrength extends StrengthReading {
  readonly time: string;
  /** The band on which it was read; null where nobody said. */
  readonly band: string | null;
}

/** Received levels of both sides, of whatever band. */
export type StrengthSides = BeforeAfter<readonly TimedStrength[]>;

/**
 * Received levels by the fields in which they were read; null where a field is on both sides, or nobody read any on one
 * of them.
 *
 * @param stateAt - the state of the field at a time
 */
export function strengthOfFields<State>(
  readings: readonly TimedStrength[],
  stateAt: (time: string) => State,
  sides: BeforeAfter<readonly State[]>,
): StrengthSides | null {
  const readIn = (wanted: readonly State[]): TimedStrength[] =>
    readings.filter(({ time }) => wanted.includes(stateAt(time)));
  const [before, after] = [readIn(sides.before), readIn(sides.after)];
  const sameField = sides.before.some((state) => sides.after.includes(state));
  return sameField || before.length === 0 || after.length === 0 ? null : { before, after };
}

/**
 * Compares the levels of one band; null where it has none on one of the sides.
 *
 * @param assumedBand - the band of levels that name none
 */
export function compareStrengthIn(
  band: string,
  levels: StrengthSides | null,
  assumedBand: string,
): StrengthComparison | null {
  const inBand = (side: readonly TimedStrength[] = []): TimedStrength[] =>
    side.filter((reading) => (reading.band ?? assumedBand) === band);
  const [before, after] = [inBand(levels?.before), inBand(levels?.after)];
  return before.length === 0 || after.length === 0 ? null : compareStrength(before, after);
}

/** What is said of levels that name no band, where there are several that they could be of. */
export function assumedBandNotes(
  levels: readonly TimedStrength[],
  assumedBand: string,
  bands: readonly string[],
): string[] {
  const silent = levels.filter(({ band }) => band === null).length;
  if (silent === 0 || bands.every((band) => band === assumedBand)) return [];
  const [verb, pronoun] = silent === 1 ? ['names', 'is'] : ['name', 'are'];
  return [
    `${plural(silent, 'received level')} ${verb} no band and ${pronoun} taken for ${assumedBand}: note field --band says which`,
  ];
}

/** The field-strength readings among a logbook's. */
export function strengthOf(readings: readonly Reading[]): TimedStrength[] {
  return readings.flatMap(({ kind, time, subject, value, powerW, band = null }) =>
    kind === 'field-strength' && subject !== null && value !== null
      ? [{ time, place: subject, levelDb: value, powerW, band }]
      : [],
  );
}
