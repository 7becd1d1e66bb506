import { describe, expect, it } from 'vitest';
import { fieldChange, fieldKey, isSameField } from '../../../../src/core/layout/same-field.ts';
import type { FieldState, Radial } from '../../../../src/core/record.ts';

function radial(number: number, bearingDeg: number | null = null, lengthM = 7): Radial {
  return { number, lengthM, bearingDeg, route: null, since: '2026-03-01T10:00:00Z' };
}

function field(...radials: Radial[]): FieldState {
  return { since: null, radials, wireM: radials.reduce((sum, { lengthM }) => sum + lengthM, 0) };
}

describe('a field', () => {
  it('is the same when the same wires lie there, whenever the journal spoke of it', () => {
    const before = field(radial(1), radial(2));
    expect(isSameField(before, { ...field(radial(2), radial(1)), since: '2026-05-01T10:00:00Z' })).toBe(true);
    expect(isSameField(before, field(radial(1), radial(2), radial(3)))).toBe(false);
  });

  it('is the same when a wire was lifted and laid again as it was', () => {
    expect(fieldKey(field(radial(1, 90)))).toBe(fieldKey(field(radial(9, 90))));
    expect(isSameField(field(radial(1, 90)), field(radial(9, 180)))).toBe(false);
    expect(isSameField(field(radial(1, 90)), field(radial(9, 90, 6)))).toBe(false);
  });

  it('is another one when a wire was replaced by one whose place is unknown', () => {
    expect(isSameField(field(radial(1)), field(radial(9)))).toBe(false);
  });

  it('tells which wires came and which went', () => {
    const change = fieldChange(
      field(radial(1, 0), radial(2, 90), radial(3, 90)),
      field(radial(4, 90), radial(5, 180)),
    );
    expect(change.laid.map(({ number }) => number)).toEqual([5]);
    expect(change.lifted.map(({ number }) => number)).toEqual([1, 3]);
  });
});
