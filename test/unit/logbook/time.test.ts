import { describe, expect, it } from 'vitest';
import { isoWithZone, parseTime } from '../../../src/logbook/time.ts';

const NOW = new Date('2026-03-10T12:00:00Z');

describe('times', () => {
  it.each([
    ['2026-03-01T10:15Z', '2026-03-01T10:15:00Z'],
    ['2026-03-01 10:15:30+01:00', '2026-03-01T10:15:30+01:00'],
    ['2026-03-01T10:15:30.250-0330', '2026-03-01T10:15:30.250-03:30'],
    ['2026-03-01t10:15z', '2026-03-01T10:15:00Z'],
  ])('writes %s in one way, in its own zone', (text, expected) => {
    const time = parseTime(text, NOW);
    expect(time).toBe(expected);
    expect(Date.parse(time)).not.toBeNaN();
  });

  it.each([
    ['2026-03-01T10:15', /needs a zone/u],
    ['yesterday', /needs a time such as/u],
    ['2026-02-30T10:15Z', /no such time/u],
    ['2026-03-01T25:15Z', /no such time/u],
    ['2026-03-10T12:00:01Z', /in the future/u],
    ['', /needs a time/u],
  ])('refuses "%s"', (text, expected) => {
    expect(() => parseTime(text, NOW)).toThrow(expected);
  });

  it('writes a moment with the zone of this computer', () => {
    const text = isoWithZone(NOW);
    expect(text).toMatch(/^2026-03-1\dT\d\d:00:00(?:Z|[+-]\d\d:\d\d)$/u);
    expect(Date.parse(text)).toBe(NOW.getTime());
  });
});
