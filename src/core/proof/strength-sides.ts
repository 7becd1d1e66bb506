import type { Reading } from '../record.ts';
import type { BeforeAfter } from './pair.ts';
import type { StrengthReading } from './strength.ts';

/** Received levels of both sides. */
export type StrengthSides = BeforeAfter<readonly StrengthReading[]>;

/** A received level with its time, ISO 8601 with zone. */
export interface TimedStrength extends StrengthReading {
  readonly time: string;
}

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

/** The field-strength readings among a logbook's. */
export function strengthOf(readings: readonly Reading[]): TimedStrength[] {
  return readings.flatMap(({ kind, time, subject, value, powerW }) =>
    kind === 'field-strength' && subject !== null && value !== null
      ? [{ time, place: subject, levelDb: value, powerW }]
      : [],
  );
}
