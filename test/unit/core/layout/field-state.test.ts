import { describe, expect, it } from 'vitest';
import type { JournalEvent } from '../../../../src/core/journal-event.ts';
import {
  fieldStateAt,
  fieldStateOfSite,
  nextRadialAfter,
  replayField,
  requireFieldConsistent,
} from '../../../../src/core/layout/field-state.ts';
import { parseSite } from '../../../../src/logbook/site-file.ts';

const radial = (event: 'lay' | 'plan', number: number, time: string, lengthM = 6): JournalEvent => ({
  event,
  time,
  text: '',
  number,
  lengthM,
  bearingDeg: null,
  route: null,
});
const lay = (number: number, time: string, lengthM?: number) => radial('lay', number, time, lengthM);
const plan = (number: number, time: string) => radial('plan', number, time);
const lift = (number: number, time: string): JournalEvent => ({ event: 'lift', time, text: '', number });

const MARCH = '2026-03-01T10:00:00Z';
const APRIL = '2026-04-01T10:00:00Z';
const MAY = '2026-05-01T10:00:00Z';

const numbersOf = (state: { radials: readonly { number: number }[] } | undefined) =>
  state?.radials.map(({ number }) => number);

describe('the field by replay', () => {
  it('begins empty, before any time', () => {
    expect(replayField([])).toEqual({
      states: [{ since: null, radials: [], wireM: 0 }],
      planned: [],
      problems: [],
    });
  });

  it('makes one state of what was laid at one time, with count, wire and since when', () => {
    const { states } = replayField([lay(1, MARCH, 6), lay(2, MARCH, 7), lay(3, APRIL, 5)]);
    expect(states.map(({ since, wireM }) => [since, wireM])).toEqual([
      [null, 0],
      [MARCH, 13],
      [APRIL, 18],
    ]);
    expect(states[2]?.radials.map(({ since }) => since)).toEqual([MARCH, MARCH, APRIL]);
  });

  it('never gives a number twice, not even that of a radial lifted or only planned', () => {
    expect(nextRadialAfter([])).toBe(1);
    expect(nextRadialAfter([lay(1, MARCH), lay(2, MARCH), lift(2, APRIL)])).toBe(3);
    expect(nextRadialAfter([lay(1, MARCH), plan(7, APRIL)])).toBe(8);
  });

  it('holds no more radials than any field has, and says which it left out', () => {
    const many = Array.from({ length: 1002 }, (_, i) => lay(i + 1, new Date(i * 1000).toISOString()));
    const { states, problems } = replayField(many);
    expect(states.at(-1)?.radials).toHaveLength(1000);
    expect(problems).toHaveLength(2);
    expect(problems[0]).toContain('radial 1001 was laid, but 1000 lie there');
  });

  it('puts what was logged late into its place in time', () => {
    const { states } = replayField([lay(1, MARCH), lift(1, MAY), lay(2, APRIL)]);
    expect(states.map(numbersOf)).toEqual([[], [1], [1, 2], [2]]);
  });

  it('orders by the moment, whatever the zone', () => {
    const { states } = replayField([lay(1, '2026-03-01T10:00:00+02:00'), lay(2, '2026-03-01T09:00:00Z')]);
    expect(states.map(numbersOf)).toEqual([[], [1], [1, 2]]);
  });

  it('passes over what contradicts, and says so', () => {
    const { states, problems } = replayField([lay(1, MARCH), lay(1, APRIL), lift(9, APRIL)]);
    expect(numbersOf(states.at(-1))).toEqual([1]);
    expect(problems).toEqual([
      expect.stringContaining('radial 1 was laid, but that number was laid before'),
      expect.stringContaining('radial 9 was lifted, but was not laid before that'),
    ]);
  });

  it('keeps the newest plan, less what was laid of it', () => {
    const { planned, states } = replayField([
      plan(1, MARCH),
      plan(2, MARCH),
      plan(3, APRIL),
      plan(4, APRIL),
      lay(3, MAY),
    ]);
    expect(planned.map(({ number }) => number)).toEqual([4]);
    expect(numbersOf(states.at(-1))).toEqual([3]);
  });

  it('tells the state of any time, a change at that time counted in', () => {
    const { states } = replayField([lay(1, MARCH), lay(2, APRIL)]);
    expect(numbersOf(fieldStateAt(states, '2026-02-28T00:00:00Z'))).toEqual([]);
    expect(numbersOf(fieldStateAt(states, APRIL))).toEqual([1, 2]);
    expect(numbersOf(fieldStateAt(states, '2026-03-31T23:59:59Z'))).toEqual([1]);
  });

  it('refuses events that contradict the journal, and only those', () => {
    const before = [lay(1, MARCH), lift(5, MARCH)];
    expect(() => requireFieldConsistent(before, [...before, lift(1, APRIL)])).not.toThrow();
    expect(() => requireFieldConsistent(before, [...before, lift(2, APRIL)])).toThrow(/radial 2 was lifted/u);
    expect(() => requireFieldConsistent(before, [...before, lift(1, '2026-02-01T00:00:00Z')])).toThrow(
      /radial 1/u,
    );
  });

  it('takes the field from the site file where no journal tells it', () => {
    const site = (radials: unknown) =>
      parseSite(JSON.stringify({ version: 1, name: 'x', antenna: { kind: 'other' }, radials }), 'site.json');
    expect(fieldStateOfSite(site({ count: 24, length: '6m' }))).toMatchObject({ since: null, wireM: 144 });
    expect(fieldStateOfSite(site({ count: 24 }))).toBeNull();
    expect(fieldStateOfSite(site(null))).toBeNull();
  });
});
