import { createSweep, type Sweep } from '../../src/core/sweep/sweep.ts';
import { type PageChart, type PageData, SweepPacker } from '../../src/formats/page-data.ts';
import { emptyPageData } from '../../test/support/empty-page-data.ts';

const HOUR_MS = 3_600_000;
/** A vertical over soil that dries from visit to visit, with the grain of a real instrument. */
export function manySweeps(visits: number, points: number): Sweep[] {
  const frequencyHz = Float64Array.from({ length: points }, (_, i) =>
    Math.round(6.5e6 + (1.2e6 * i) / (points - 1)),
  );
  return Array.from({ length: visits }, (_, k) =>
    createSweep({
      frequencyHz,
      resistanceOhm: frequencyHz.map(
        (hz, i) => 36 + 8e-6 * (hz - 6.5e6) + 0.1 * k + 0.2 * Math.sin(i * 12.9898 + k),
      ),
      reactanceOhm: frequencyHz.map(
        (hz, i) => (hz - 7.1e6) * 8e-5 + 0.05 * k + 0.2 * Math.sin(i * 78.233 + k),
      ),
    }),
  );
}

/** A page that holds sweeps, one a visit. */
export function pageOfSweeps(sweeps: readonly Sweep[]): PageData {
  const packer = new SweepPacker();
  const visits = sweeps.map((sweep, k) => ({
    visit: k + 1,
    time: new Date(Date.UTC(2025, 0, 1 + k)).toISOString(),
    radials: k,
    wireM: 6 * k,
    field: k,
    counts: true,
    shots: [packer.pack(sweep)],
    referenceLoad: [],
  }));
  const fields = visits.map(({ radials, wireM, time }) => ({ radials, wireM, since: time }));
  return emptyPageData({ sweeps: { grids: packer.grids, fields, visits, leftOut: 0, throughLine: false } });
}

/** A page of features, one an hour. */
export function pageOfHours(hours: number): PageData {
  const column = (valueAt: (i: number) => number): number[] =>
    Array.from({ length: hours }, (_, i) => valueAt(i));
  const chart = (feature: PageChart['feature'], middle: number): PageChart => ({
    band: '40m',
    feature,
    values: column((i) => middle * (1 + 0.01 * Math.sin(i / 24) + 0.004 * Math.sin(i * 12.9898))),
    expected: column((i) => middle * (1 + 0.01 * Math.sin(i / 24))),
    smoothed: {
      average: column((i) => 0.001 * middle * Math.sin(i / 5)),
      limit: column(() => 0.01 * middle),
    },
    signals: [],
  });
  const answer = {
    causes: [{ cause: 'none', probability: 1, estimate: null, evidence: [], checkFirst: 'nothing' }],
    cannotTell: [],
    visitsBefore: [1],
    visitsAfter: [hours],
    standApart: [],
    changeAt: null,
    beyond: false,
  };
  const visits = column((i) => i + 1);
  const timeMs = column((i) => Date.UTC(2025, 0, 1) + i * HOUR_MS);
  const charts = [
    chart('resistanceAtResonanceOhm', 40),
    chart('resonanceHz', 7.1e6),
    chart('qualityFactor', 7),
    chart('minSwr', 1.2),
    chart('curve', 0.01),
  ];
  return emptyPageData({
    changes: { data: { answer, visits, timeMs, aheadMin: column(() => 0), charts }, missing: null },
  });
}
