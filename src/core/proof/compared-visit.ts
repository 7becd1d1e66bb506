import type { AnySweep, Sweep } from '../sweep/sweep.ts';
import type { Conditions } from './conditions.ts';
import type { Share } from './pair.ts';

/** The shots of one visit, at one plane, as a comparison takes them. */
export interface ComparedVisit {
  readonly label: string;
  /** ISO 8601 with zone; null for loose files. */
  readonly time: string | null;
  readonly shots: readonly AnySweep[];
  readonly referenceLoad: readonly Sweep[];
  readonly conditions: Conditions;
}

/** Visits that make up a side in equal parts. */
export function inEqualParts<T>(visits: readonly T[]): Share<T>[] {
  return visits.map((visit) => ({ visit, share: 1 / visits.length }));
}

/**
 * The two outer visits of a reversal (connected, disconnected, connected again) as one side: what they would have
 * shown at the moment of the middle one, if soil and instrument drifted steadily. In equal parts where the times are
 * not known, or the middle one does not lie between.
 */
export function bracketing(
  first: ComparedVisit,
  middle: ComparedVisit,
  last: ComparedVisit,
): Share<ComparedVisit>[] {
  const [t1, t2, t3] = [first, middle, last].map(({ time }) =>
    time === null ? Number.NaN : Date.parse(time),
  );
  const between = ((t2 as number) - (t1 as number)) / ((t3 as number) - (t1 as number));
  const share = between > 0 && between < 1 ? between : 0.5;
  return [
    { visit: first, share: 1 - share },
    { visit: last, share },
  ];
}
