import { describe, expect, it } from 'vitest';
import { conditionTeller } from '../../../../src/core/drift/conditions.ts';
import type { WatchedRound } from '../../../../src/core/drift/feature-chart.ts';
import { type Watch, watchRounds } from '../../../../src/core/drift/watch.ts';
import type { Reading } from '../../../../src/core/record.ts';
import { random } from '../../../support/random.ts';

const DAY_MS = 86_400_000;

const watchOneBand = (rounds: readonly WatchedRound[]): Watch => watchRounds(rounds, 1);

/** Rounds of one band some days apart, R as given, everything else steady with a little noise. */
function visitsWith(
  resistance: readonly number[],
  options: { days?: readonly number[]; baseline?: readonly (boolean | null)[]; readings?: Reading[] } = {},
): WatchedRound[] {
  const r = random(7);
  const conditions = conditionTeller(options.readings ?? []);
  let at = Date.parse('2026-01-01T12:00:00Z');
  return resistance.map((ohm, i) => {
    at += (options.days?.[i] ?? 3) * DAY_MS;
    const time = new Date(at).toISOString();
    return {
      timeMs: at,
      baseline: options.baseline?.[i] ?? null,
      ofBand: [
        {
          visit: i + 1,
          features: {
            resistanceAtResonanceOhm: ohm,
            resonanceHz: 7.1e6 + r.normal(2e3),
            qualityFactor: 9 + r.normal(0.05),
            minSwr: 1.2 + r.normal(0.01),
          },
          curve: null,
        },
      ],
      conditions: conditions(time),
    };
  });
}

const noise = random(3);
const healthy = Array.from({ length: 20 }, () => 41 + noise.normal(0.3));

describe('the watch over visits', () => {
  it('sees nothing in visits that only scatter, and holds the newest against the rest', () => {
    const watch = watchOneBand(visitsWith(healthy));
    expect(watch.changeAt).toBeNull();
    expect(watch.beyond).toBe(false);
    expect(watch.healthy).toEqual(Array.from({ length: 19 }, (_, i) => i));
    expect(watch.changed).toEqual([19]);
  });

  it('parts healthy from changed visits where R steps, whatever gap lies between', () => {
    const days = [...Array(20).fill(3), 200, 3, 40, 3];
    const watch = watchOneBand(visitsWith([...healthy, 44.1, 43.8, 44.3, 44], { days }));
    expect(watch.changeAt).toBe(20);
    expect(watch.changed).toEqual([20, 21, 22, 23]);
    expect(watch.beyond).toBe(true);
  });

  it('keeps a first bad visit out of the baseline of a second one', () => {
    for (const before of [3, 6, 20]) {
      const watch = watchOneBand(visitsWith([...healthy.slice(0, before), 45.1, 45.3]));
      expect(watch.changeAt).toBe(before);
      expect(watch.changed).toEqual([before + 1]);
      expect(watch.healthy).toHaveLength(before);
      expect(watch.beyond).toBe(true);
    }
  });

  it('calls a single odd visit, or two on different sides, no step', () => {
    expect(watchOneBand(visitsWith([...healthy, 45.1, 41.1])).changeAt).toBeNull();
    expect(watchOneBand(visitsWith([...healthy, 45.1, 37])).changeAt).toBeNull();
  });

  const until = (days: number): number => Date.parse('2026-01-01T12:00:00Z') + days * DAY_MS;

  it('keeps a fault that came and went out of the baseline, and what was back in it', () => {
    for (const before of [4, 8, 20]) {
      const values = [...healthy.slice(0, before), 45.1, 45.4, 41.1];
      // Visits are three days apart, and the mended one comes last.
      const repaired = until(3 * (before + 2) + 1);
      const watch = watchRounds(visitsWith(values), 1, [repaired]);
      expect(watch.apart).toEqual([
        { places: [before, before + 1], backAt: before + 2, repairedMs: repaired },
      ]);
      expect(watch.healthy).toEqual(Array.from({ length: before }, (_, i) => i));
      expect(watch.changed).toEqual([before + 2]);
      expect(watch.beyond).toBe(false);
      const [chart] = watch.charts;
      expect(chart?.values).toHaveLength(before + 3);
      expect(chart?.ewma?.average[before]).toBeNaN();
      expect(chart?.ewmaSignals).toEqual([]);
      expect(watchOneBand(visitsWith(values)).apart).toMatchObject([{ repairedMs: null }]);
    }
  });

  it('judges a relapse by itself, against all that were healthy', () => {
    const watch = watchOneBand(visitsWith([...healthy.slice(0, 8), 45.1, 45.4, 41.1, 45.2]));
    expect(watch.healthy).toEqual([0, 1, 2, 3, 4, 5, 6, 7, 10]);
    expect(watch.changed).toEqual([11]);
    expect(watch.judgedBy).toBe('newest');
    expect(watch.beyond).toBe(true);
  });

  it('asks more of a stretch apart that no repair explains', () => {
    const spread = [41, 41.5, 40.5, 41.4, 40.6, 41.6, 40.4, 41];
    const values = [...spread, 44.9, 41.1];
    expect(watchOneBand(visitsWith(values)).apart).toEqual([]);
    expect(watchRounds(visitsWith(values), 1, [until(29)]).apart).toHaveLength(1);
  });

  it('calls nothing apart in visits that only scatter', () => {
    const r = random(5);
    let found = 0;
    for (let run = 0; run < 40; run++) {
      found += watchOneBand(visitsWith(Array.from({ length: 15 }, () => 41 + r.normal(0.5)))).apart.length;
    }
    expect(found).toBeLessThanOrEqual(1);
  });

  it('lets the user’s word that a visit is healthy stand above the rule', () => {
    const values = [...healthy.slice(0, 8), 45.1, 45.4, 41.1];
    const baseline = values.map(() => true);
    expect(watchOneBand(visitsWith(values, { baseline })).apart).toEqual([]);
  });

  it('judges what stands since the repair, where the fault outlived it', () => {
    const values = [...healthy.slice(0, 12), 45.1, 45.4, 45.2, 44.9];
    expect(watchOneBand(visitsWith(values))).toMatchObject({ changed: [12, 13, 14, 15], judgedBy: 'step' });
    const divided = watchRounds(visitsWith(values), 1, [until(3 * 14 + 1)]);
    expect(divided).toMatchObject({ changeAt: 12, changed: [14, 15], judgedBy: 'repair' });
  });

  it('takes only marked visits as healthy where some are marked, and never those marked no', () => {
    const baseline = healthy.map((_, i) => (i < 3 ? true : null));
    expect(watchOneBand(visitsWith(healthy, { baseline })).healthy).toEqual([0, 1, 2]);
    const not = healthy.map((_, i) => (i === 4 ? false : null));
    expect(watchOneBand(visitsWith(healthy, { baseline: not })).healthy).not.toContain(4);
  });

  it('explains by moisture what moisture does', () => {
    const r = random(11);
    const moisture = Array.from({ length: 30 }, () => r.between(0.1, 0.4));
    const values = moisture.map((m) => 46 - 12 * m + r.normal(0.1));
    const visits = visitsWith(values);
    const readings = visits.map(({ timeMs }, i) => ({
      time: new Date(timeMs).toISOString(),
      kind: 'soil-moisture' as const,
      value: moisture[i] as number,
      subject: null,
      powerW: null,
      text: '',
    }));
    const [chart] = watchOneBand(visitsWith(values, { readings })).charts;
    expect(chart?.standardDeviation).toBeLessThan(0.2);
    expect(watchOneBand(visits).charts[0]?.standardDeviation).toBeGreaterThan(0.7);
  });

  it('of one or two visits works, without limits', () => {
    expect(watchOneBand(visitsWith([41])).changed).toEqual([0]);
    const watch = watchOneBand(visitsWith([41, 45]));
    expect(watch.healthy).toEqual([0]);
    expect(watch.charts[0]?.ewma).toBeNull();
    expect(watch.beyond).toBeNull();
  });

  it('charts each band by its own visits, and parts all of them where one shows a step', () => {
    const low = visitsWith([...healthy, 44.1, 43.8, 44.3, 44]);
    const steady = visitsWith([...healthy, ...healthy.slice(0, 4)].map((ohm) => 3 * ohm));
    const both = low.map((round, i) => ({
      ...round,
      ofBand: [...round.ofBand, i % 2 === 0 ? (steady[i]?.ofBand[0] ?? null) : null],
    }));
    const watch = watchRounds(both, 2);
    expect(watch.changeAt).toBe(20);
    const [first, second] = watch.charts.filter(({ feature }) => feature === 'resistanceAtResonanceOhm');
    expect(first?.values.length).toBe(24);
    expect(second?.places).toEqual(Array.from({ length: 12 }, (_, i) => 2 * i));
    expect(first?.cusumSignals.length).toBeGreaterThan(0);
    expect(second?.cusumSignals).toEqual([]);
  });

  it('tells no trend from less than a month', () => {
    const hourly = { days: Array(20).fill(1 / 24) };
    expect(watchOneBand(visitsWith(healthy, hourly)).charts[0]?.trend).toBeNull();
    expect(watchOneBand(visitsWith(healthy)).charts[0]?.trend).not.toBeNull();
  });
});
