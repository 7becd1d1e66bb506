import type { FieldState, Radial } from '../record.ts';

/** What parts one field from another. */
export interface FieldChange {
  readonly laid: readonly Radial[];
  readonly lifted: readonly Radial[];
}

/**
 * What a field is made of, as text that is equal for equal fields: every radial by its length and its way over the
 * ground, so that wires lifted and laid again as they were make the field that was. A radial whose place was never told
 * is known by its number alone, for another of its length may lie elsewhere.
 */
export function fieldKey({ radials }: Pick<FieldState, 'radials'>): string {
  return radials.map(wireKey).sort().join('\n');
}

/** Whether the same radials lie in the ground in both, whatever was laid and lifted between. */
export function isSameField(a: FieldState, b: FieldState): boolean {
  return a === b || fieldKey(a) === fieldKey(b);
}

/** The radials of one field that the other lacks, both ways. */
export function fieldChange(before: FieldState, after: FieldState): FieldChange {
  return { laid: radialsMissing(after, before), lifted: radialsMissing(before, after) };
}

/** Like wires are counted: of two where one is left, one is missing. */
function radialsMissing(from: FieldState, others: FieldState): Radial[] {
  const there = new Map<string, number>();
  for (const radial of others.radials) there.set(wireKey(radial), (there.get(wireKey(radial)) ?? 0) + 1);
  return from.radials.filter((radial) => {
    const left = there.get(wireKey(radial)) ?? 0;
    there.set(wireKey(radial), left - 1);
    return left <= 0;
  });
}

function wireKey({ number, lengthM, bearingDeg, route }: Radial): string {
  return JSON.stringify([lengthM, bearingDeg, route, bearingDeg === null && route === null ? number : null]);
}
