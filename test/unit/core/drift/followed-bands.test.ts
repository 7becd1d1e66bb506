import { describe, expect, it } from 'vitest';
import { followedBands } from '../../../../src/core/drift/followed-bands.ts';
import type { Site } from '../../../../src/core/site.ts';
import { parseSite } from '../../../../src/logbook/site-file.ts';
import { shotRecord, visitRecord } from '../../../support/visit-records.ts';

function site(bands: readonly string[]): Site {
  const antenna = { kind: 'quarter-wave', height: '10.1m', ...(bands.length > 0 ? { bands } : {}) };
  return parseSite(JSON.stringify({ version: 1, name: 'Plot', antenna }), 'site.json');
}

const TIME = '2026-03-01T10:00:00Z';
const [low, high] = [
  visitRecord(1, TIME, shotRecord(6.3e6, 7.9e6)),
  visitRecord(2, TIME, shotRecord(13.7e6, 14.7e6)),
];
const names = (own: Site, ...visits: Parameters<typeof followedBands>[1][number][]): string[] =>
  followedBands(own, visits).map(({ band }) => band);

describe('the bands that are followed', () => {
  it('are those of the site that were measured', () => {
    expect(names(site(['20m', '40m', '15m']), low, high)).toEqual(['40m', '20m']);
  });

  it('are those of the sweeps where the site names none of them', () => {
    expect(names(site([]), high, low)).toEqual(['40m', '20m']);
    expect(names(site(['15m']), low)).toEqual(['40m']);
  });

  it('of a sweep over many are the one nearest to the quarter wave', () => {
    expect(names(site([]), visitRecord(1, TIME, shotRecord(3e6, 30e6)))).toEqual(['40m']);
  });

  it('of a sweep outside every band are its own range', () => {
    expect(names(site([]), visitRecord(1, TIME, shotRecord(26e6, 27e6)))).toEqual(['26.000-27.000 MHz']);
  });

  it('are none without a sweep of the antenna', () => {
    expect(names(site(['40m']), visitRecord(1, TIME, shotRecord(3e6, 30e6, 'reference-load')))).toEqual([]);
  });
});
