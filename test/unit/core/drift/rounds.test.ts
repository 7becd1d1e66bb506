import { describe, expect, it } from 'vitest';
import { roundsOf } from '../../../../src/core/drift/rounds.ts';
import { shotRecord, visitRecord } from '../../../support/visit-records.ts';

const BANDS = [
  { band: '40m', fromHz: 7e6, toHz: 7.2e6 },
  { band: '20m', fromHz: 14e6, toHz: 14.35e6 },
];
const low = shotRecord(6.8e6, 7.4e6);
const high = shotRecord(13.7e6, 14.7e6);

const numbers = (rounds: ReturnType<typeof roundsOf>): number[][] =>
  rounds.map(({ visits }) => visits.map(({ visit }) => visit));

describe('rounds', () => {
  it('put visits for different bands together that were made one after the other', () => {
    const rounds = roundsOf(
      [
        visitRecord(1, '2026-03-01T10:00:00Z', low),
        visitRecord(2, '2026-03-01T10:05:00Z', high),
        visitRecord(3, '2026-03-01T10:10:00Z', low),
        visitRecord(4, '2026-03-01T12:00:00Z', high),
      ],
      BANDS,
    );
    expect(numbers(rounds)).toEqual([[1, 2], [3], [4]]);
    expect(rounds[0]?.ofBand.map((visit) => visit?.visit)).toEqual([1, 2]);
    expect(rounds[2]?.ofBand).toEqual([null, expect.objectContaining({ visit: 4 })]);
  });

  it('go by the clock, whatever the numbers, and leave out what holds no band', () => {
    const rounds = roundsOf(
      [
        visitRecord(1, '2026-03-02T10:00:00Z', low),
        visitRecord(2, '2026-03-01T10:00:00Z', low),
        visitRecord(3, '2026-03-03T10:00:00Z', shotRecord(1e6, 30e6, 'reference-load')),
      ],
      BANDS,
    );
    expect(numbers(rounds)).toEqual([[2], [1]]);
  });

  it('of one visit with several bands show each by its own shots', () => {
    const [round] = roundsOf([visitRecord(1, '2026-03-01T10:00:00Z', low, high)], BANDS);
    expect(round?.ofBand.map((visit) => visit?.shots)).toEqual([[low], [high]]);
  });

  it('are no baseline when one of their visits is none', () => {
    const no = { ...visitRecord(1, '2026-03-01T10:00:00Z', low), baseline: false };
    const yes = { ...visitRecord(2, '2026-03-01T10:01:00Z', high), baseline: true };
    expect(roundsOf([no, yes], BANDS)[0]?.baseline).toBe(false);
    expect(roundsOf([yes], BANDS)[0]?.baseline).toBe(true);
  });
});
