import { describe, expect, it } from 'vitest';
import type { ShotRecord } from '../../../src/core/record.ts';
import { visitsInBand } from '../../../src/core/visits-in-band.ts';
import { shotRecord as shot, visitRecord } from '../../support/visit-records.ts';

const BAND = { fromHz: 7e6, toHz: 7.2e6 };

const visit = (number: number, ...shots: ShotRecord[]) =>
  visitRecord(number, '2026-03-01T10:00:00Z', ...shots);

describe('visitsInBand', () => {
  it('keeps the visits with an antenna sweep that reaches into the band', () => {
    const [low, high, load] = [shot(6.3e6, 7.1e6), shot(13e6, 15e6), shot(1e6, 30e6, 'reference-load')];
    const found = visitsInBand([visit(1, low), visit(2, high), visit(3, load)], BAND);
    expect(found.map(({ visit: number }) => number)).toEqual([1]);
  });

  it('leaves out the other bands of a visit, and keeps its reference load', () => {
    const [own, other, load] = [shot(6.3e6, 7.9e6), shot(13e6, 15e6), shot(13e6, 15e6, 'reference-load')];
    expect(visitsInBand([visit(1, own, other, load)], BAND)[0]?.shots).toEqual([own, load]);
  });

  it('takes a sweep that only touches the band’s edge for another band’s', () => {
    expect(visitsInBand([visit(1, shot(6e6, 7e6)), visit(2, shot(7.2e6, 8e6))], BAND)).toEqual([]);
  });
});
