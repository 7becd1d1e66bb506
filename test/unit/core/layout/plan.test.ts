import { describe, expect, it } from 'vitest';
import { freeArea } from '../../../../src/core/layout/free-area.ts';
import { type Lesson, lessonText } from '../../../../src/core/layout/lesson.ts';
import { makePlan, type PlanRequest } from '../../../../src/core/layout/plan.ts';
import { laidRoutes } from '../../../../src/core/layout/planned-field.ts';
import { lengthOf } from '../../../../src/core/layout/route.ts';
import type { Lot, Point } from '../../../../src/core/site.ts';
import { expectClose } from '../../../support/expect-close.ts';

const square = (size: number): Lot => ({
  outline: [
    [0, 0],
    [size, 0],
    [size, size],
    [0, size],
  ],
  base: [size / 2, size / 2],
  northDeg: 0,
  obstacles: [],
  places: [],
});

const request = (lot: Lot, part: Partial<PlanRequest>): PlanRequest => ({
  area: freeArea(lot),
  setting: {
    monopole: { heightM: 10.1, radiusM: 0.0125 },
    soil: { conductivitySPerM: 0.005, relativePermittivity: 13 },
    wireRadiusM: 0.8e-3,
    bands: [{ band: '40m', frequencyHz: 7.1e6 }],
  },
  stockM: null,
  wanted: null,
  compared: [],
  laid: [],
  elevationsDeg: [10],
  allowanceM: 0.15,
  units: 'metric',
  ...part,
});

describe('a plan', () => {
  it('uses no more wire than the stock gives, and says how to cut it', () => {
    const { chosen } = makePlan(request(square(60), { stockM: [50, 30, 12] }));
    const cut = chosen.cuts.flatMap(({ pieces }) => pieces);
    const cutM = cut.reduce((a, b) => a + b, 0);
    expect(cutM).toBeLessThanOrEqual(92 + 1e-9);
    // What joins each wire to the plate is cut with it.
    expectClose(cutM, chosen.wireM + 0.15 * chosen.routes.length, { relative: 1e-12 });
    for (const { stockM, pieces, offcutM } of chosen.cuts) {
      expectClose(
        pieces.reduce((a, b) => a + b, offcutM),
        stockM,
        { relative: 1e-12 },
      );
    }
    for (const { points, lengthM } of chosen.routes)
      expectClose(lengthOf(points), lengthM, { relative: 1e-9 });
  });

  it('finds that many short wires beat few long ones, by computation', () => {
    const plan = makePlan(request(square(60), { stockM: [100] }));
    expect(plan.lesson?.says).toBe('more beats longer');
    expect(lessonText(plan.lesson as Lesson, 'imperial')).toMatch(
      /^more beats longer here: \d+ radials of up to [\d.]+ ft lose [\d.]+ dB less than \d+ radials of up to [\d.]+ ft$/u,
    );
    expect(plan.chosen.routes.length).toBeGreaterThan(12);
  });

  it('plans a wanted field without cutting it where the stock is short', () => {
    const { chosen } = makePlan(request(square(60), { stockM: [10], wanted: { count: 4, lengthM: 5 } }));
    expect([chosen.routes.length, chosen.cuts]).toEqual([4, []]);
  });

  it('has no lesson to tell about a single field', () => {
    expect(makePlan(request(square(60), { wanted: { count: 8, lengthM: 5 } })).lesson).toBeNull();
  });

  it('counts what lies there already: the same wire buys less', () => {
    const laid = Array.from({ length: 16 }, (_, i) => ({
      number: i + 1,
      lengthM: 8,
      bearingDeg: i * 22.5,
      route: null,
      since: '2026-01-01T00:00:00Z',
    }));
    const alone = makePlan(request(square(60), { wanted: { count: 16, lengthM: 8 } }));
    const beside = makePlan(request(square(60), { wanted: { count: 16, lengthM: 8 }, laid }));
    expect(beside.chosen.meanLossDb).toBeLessThan(alone.chosen.meanLossDb);
    expect(beside.worth[2]?.gainDb).toBeLessThan(alone.worth[2]?.gainDb as number);
  });

  it('says what it gains over what lies there, and nothing where nothing does', () => {
    const laid = [0, 90, 180, 270].map((bearingDeg, i) => ({
      number: i + 1,
      lengthM: 8,
      bearingDeg,
      route: null,
      since: null,
    }));
    const beside = makePlan(request(square(60), { wanted: { count: 4, lengthM: 8 }, laid }));
    expect(beside.overLaid?.gainDb).toBeGreaterThan(0.3);
    const bearings = beside.chosen.routes.map(({ bearingDeg }) => bearingDeg);
    expect(bearings).toEqual([45, 135, 225, 315]);
    expect(makePlan(request(square(60), { wanted: { count: 4, lengthM: 8 } })).overLaid).toBeNull();
  });

  it('tells efficiency, loss and ground loss of one share of the power, each within its range', () => {
    const [band] = makePlan(request(square(60), { wanted: { count: 16, lengthM: 8 } })).chosen.bands;
    const { efficiencyPercent, lossDb, efficiencyRangePercent, lossRangeDb } = band as NonNullable<
      typeof band
    >;
    expectClose(lossDb, -10 * Math.log10(efficiencyPercent / 100), { absolute: 1e-9 });
    expectClose(lossRangeDb[0], -10 * Math.log10(efficiencyRangePercent[1] / 100), { absolute: 1e-9 });
    expectClose(lossRangeDb[1], -10 * Math.log10(efficiencyRangePercent[0] / 100), { absolute: 1e-9 });
    expect(lossRangeDb[0] < lossDb && lossDb < lossRangeDb[1]).toBe(true);
  });

  it('sets compared fields beside it with their bands, their leaning and their wire', () => {
    const compared = [{ count: 8, lengthM: 12 }];
    const { others } = makePlan(request(square(40), { wanted: { count: 32, lengthM: 3 }, compared }));
    expect(others).toHaveLength(1);
    expect(others[0]).toMatchObject({
      nominalLengthM: 12,
      wireM: expect.closeTo(96, 6),
      bands: [{ band: '40m', efficiencyPercent: expect.any(Number) }],
      leaning: [{ band: '40m', elevationDeg: 10, most: { relativeDb: expect.any(Number) } }],
    });
  });

  it('gives each step of more wire a gain with a range that holds it', () => {
    for (const { gainDb, lowDb, highDb } of makePlan(request(square(60), { stockM: [60] })).worth) {
      expect(gainDb).toBeGreaterThan(0);
      expect(lowDb <= gainDb && gainDb <= highDb).toBe(true);
    }
  });

  it('leans toward the wires where the lot leaves one side bare', () => {
    const lot: Lot = { ...square(40), base: [20, 0.6] };
    const [pattern] = makePlan(request(lot, { wanted: { count: 24, lengthM: 10 } })).pattern;
    const toward = (deg: number) => pattern?.relativeDb[deg / 5] as number;
    expect(toward(0)).toBeGreaterThan(0.3);
    expect(toward(180)).toBeLessThan(-0.2);
  });

  it.each<[string, Partial<PlanRequest>, string]>([
    ['no wire at all', { stockM: [] }, 'plan-no-stock'],
    ['more radials than make sense', { wanted: { count: 500, lengthM: 5 } }, 'plan-too-many'],
  ])('refuses %s', (_, part, code) => {
    expect(() => makePlan(request(square(60), part))).toThrow(expect.objectContaining({ code }));
  });

  it('refuses a lot with no room for one radial', () => {
    const corner: Lot = { ...square(1), base: [0.5, 0.5] };
    expect(() => makePlan(request(corner, { wanted: { count: 4, lengthM: 5 } }))).toThrow(
      expect.objectContaining({ code: 'plan-no-room' }),
    );
  });
});

describe('radials that were logged', () => {
  const radial = (number: number, bearingDeg: number | null) => ({
    number,
    lengthM: 5,
    bearingDeg,
    route: null,
    since: null,
  });

  it('without a bearing lie in the widest gaps of the others', () => {
    const ends = laidRoutes([radial(1, 0), radial(2, null), radial(3, 90)]).map((route) => route[1] as Point);
    const angle = ([e, n]: Point) => ((Math.atan2(e, n) * 180) / Math.PI + 360) % 360;
    expectClose(angle(ends[1] as Point), 225, { absolute: 1e-9 });
  });

  it('of which none has a bearing lie evenly', () => {
    const routes = laidRoutes([radial(1, null), radial(2, null), radial(3, null), radial(4, null)]);
    const ends = routes.map((route) => route[1] as Point);
    expectClose(ends[1]?.[0], 5, { absolute: 1e-9 });
    expectClose(ends[2]?.[1], -5, { absolute: 1e-9 });
  });
});
