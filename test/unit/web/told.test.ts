import { beforeEach, describe, expect, it, vi } from 'vitest';
import type { PageData } from '../../../src/formats/page-data.ts';
import { toldTo } from '../../../web/model/told.ts';
import { readerFor } from '../../../web/reader.ts';
import { PAGE_SEED } from '../../support/fuzz/page-seed.ts';

const METRIC = 'each is 0.15 m beyond its route';
const IMPERIAL = 'each is 0.49 ft beyond its route';

function dataWith(work: readonly string[]): PageData {
  const seed = PAGE_SEED as unknown as PageData;
  const plan = { data: { ...seed.plan.data, work }, missing: null } as PageData['plan'];
  return { ...seed, plan, otherUnits: { [METRIC]: IMPERIAL } };
}

describe('the answers as a reader gets them told', () => {
  beforeEach(() => {
    vi.stubGlobal('navigator', { languages: ['de-DE'] });
    return () => vi.unstubAllGlobals();
  });

  it('are in the units of the site or in the other ones, with the figures of the reader', () => {
    const told = (units: 'metric' | 'imperial') =>
      toldTo(readerFor(units), dataWith([METRIC])).plan.data?.work;
    expect(told('metric')).toEqual(['each is 0,15 m beyond its route']);
    expect(told('imperial')).toEqual(['each is 0,49 ft beyond its route']);
  });

  it.each([
    ['R went from 41.7 to 39.9 ohm', 'R went from 41,7 to 39,9 Ω'],
    ['read on 2026-11-25', 'read on 25.11.2026'],
    ['visit of 2026-01-10T12:00:00+01:00', 'visit of 10.01.2026, 12:00 UTC+01:00'],
    ['the code (US: NEC 810.21)', 'the code (US: NEC 810.21)'],
    ['47 CFR 1.1310(e)', '47 CFR 1.1310(e)'],
    [
      'left out: 2024-11-02-shot1.csv, by Turfwire 1.0.0',
      'left out: 2024-11-02-shot1.csv, by Turfwire 1.0.0',
    ],
    ['gains 1.2.', 'gains 1,2.'],
  ])('%s', (text, told) => {
    expect(toldTo(readerFor('metric'), dataWith([text])).plan.data?.work).toEqual([told]);
  });

  it('leave names, numbers and columns as they are', () => {
    const data = dataWith([]);
    const { lot, site, sweeps, plan } = toldTo(readerFor('imperial'), data);
    expect([lot, site, sweeps]).toEqual([data.lot, data.site, data.sweeps]);
    expect(plan.data?.pattern).toEqual(data.plan.data?.pattern);
  });
});
