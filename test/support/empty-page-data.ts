import type { PageData } from '../../src/formats/page-data.ts';

const missing = { data: null, missing: { why: 'not there', command: 'turfwire help' } };

/** A page without data, but for the parts that are given. */
export function emptyPageData(part: Partial<PageData> = {}): PageData {
  return {
    version: 2,
    made: '2026-03-01T10:15:00Z',
    program: 'Turfwire',
    opens: 'questions',
    commands: { addSweeps: 'turfwire import shot1.csv', compare: 'turfwire compare' },
    otherUnits: {},
    source: 'file',
    site: null,
    sweeps: { grids: [], fields: [], visits: [], leftOut: 0, throughLine: false },
    readings: [],
    lot: missing,
    plan: missing,
    progress: missing,
    comparisons: missing,
    changes: missing,
    safety: missing,
    ...part,
  };
}
