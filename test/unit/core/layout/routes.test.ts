import { describe, expect, it } from 'vitest';
import { freeArea } from '../../../../src/core/layout/free-area.ts';
import { APART_M, distanceToChainM, layRoutes } from '../../../../src/core/layout/lay-routes.ts';
import { isFree, layRoute, lengthOf } from '../../../../src/core/layout/route.ts';
import { spreadBearings } from '../../../../src/core/layout/spread.ts';
import type { Lot, Obstacle, Point } from '../../../../src/core/site.ts';
import { expectClose } from '../../../support/expect-close.ts';

const rectangle = (w: number, h: number, [x, y]: Point = [0, 0]): Point[] => [
  [x, y],
  [x + w, y],
  [x + w, y + h],
  [x, y + h],
];

const lot = (outline: Point[], base: Point, obstacles: Partial<Obstacle>[] = []): Lot => ({
  outline,
  base,
  northDeg: 0,
  places: [],
  obstacles: obstacles.map((part) => ({
    name: 'shed',
    kind: 'building',
    outline: [],
    clearanceM: 0.3,
    ...part,
  })),
});

describe('the ground that wires may use', () => {
  it('keeps its distance from the border', () => {
    const area = freeArea(lot(rectangle(10, 20), [5, 5]));
    expect(area.rings).toHaveLength(1);
    expect(isFree(area, [4.85, 0])).toBe(true);
    expect(isFree(area, [4.95, 0])).toBe(false);
  });

  it('leaves out buildings, water and services with their clearance, but not a path', () => {
    const body = { outline: rectangle(2, 2, [4, 10]), clearanceM: 0.5 };
    for (const kind of ['building', 'water', 'service'] as const) {
      const area = freeArea(lot(rectangle(10, 20), [5, 5], [{ ...body, kind }]));
      expect(isFree(area, [0, 4.4])).toBe(true);
      expect(isFree(area, [0, 4.6])).toBe(false);
    }
    expect(isFree(freeArea(lot(rectangle(10, 20), [5, 5], [{ ...body, kind: 'path' }])), [0, 6])).toBe(true);
  });

  it('ends at a service trench that cuts the lot in two', () => {
    const trench = { kind: 'service' as const, outline: rectangle(14, 0.2, [-2, 12]), clearanceM: 0.6 };
    const area = freeArea(lot(rectangle(10, 20), [5, 5], [trench]));
    expect(isFree(area, [0, 6.3])).toBe(true);
    expect(isFree(area, [0, 10])).toBe(false);
  });

  it('keeps off a pipe on both sides of its way, and does not close the way to an area', () => {
    // An elbow that comes from the west and leaves to the north; closed, it would hold [-2, 4].
    const way: Point[] = [
      [0, 12],
      [6, 12],
      [6, 20],
    ];
    const pipe = { kind: 'service' as const, outline: way, isLine: true, clearanceM: 0.6 };
    const area = freeArea(lot(rectangle(10, 20), [8, 5], [pipe]));
    expect(isFree(area, [-4, 6.3])).toBe(true);
    expect(isFree(area, [-4, 6.5])).toBe(false);
    expect(isFree(area, [-1.3, 12])).toBe(true);
    expect(isFree(area, [-1.5, 12])).toBe(false);
    const along = { ...pipe, outline: way.slice(1), clearanceM: 0 };
    const beside = freeArea(lot(rectangle(10, 20), [8, 5], [along]));
    expect(isFree(beside, [-4, 14])).toBe(true);
    // However little clearance is asked for, no wire crosses it.
    expect(isFree(beside, [-2, 12])).toBe(false);
  });

  it.each<[string, Lot, string]>([
    ['a base on the border', lot(rectangle(10, 20), [0, 5]), 'lot-base-outside'],
    [
      'an outline that crosses itself',
      lot(
        [
          [0, 0],
          [10, 10],
          [10, 0],
          [0, 10],
        ],
        [8, 5],
      ),
      'lot-outline-crosses',
    ],
    ['a base outside the lot', lot(rectangle(10, 20), [12, 5]), 'lot-base-outside'],
    [
      'a base on an obstacle',
      lot(rectangle(10, 20), [5, 5], [{ outline: rectangle(2, 2, [4, 4]) }]),
      'lot-base-blocked',
    ],
    [
      'a base within the keep-off of a service',
      lot(
        rectangle(10, 20),
        [5, 5],
        [{ kind: 'service', outline: rectangle(1, 1, [5.2, 5]), clearanceM: 0.5 }],
      ),
      'lot-base-blocked',
    ],
  ])('refuses %s and names the field', (_, bad, code) => {
    expect(() => freeArea(bad)).toThrow(expect.objectContaining({ code }));
  });
});

describe('a route', () => {
  const area = freeArea(lot(rectangle(10, 20), [5, 5]));

  it('is straight where it can be', () => {
    const route = layRoute(area, 0, 7);
    expect(route.points).toHaveLength(2);
    expectClose(route.points[1]?.[1], 7, { absolute: 1e-9 });
  });

  it('bends along the border, away from the base, and uses the length it was given', () => {
    const route = layRoute(area, 60, 12);
    expectClose(route.lengthM, 12, { absolute: 1e-9 });
    expectClose(lengthOf(route.points), 12, { absolute: 1e-9 });
    expect(route.points.length).toBeGreaterThan(2);
    const distances = route.points.map(([e, n]) => Math.hypot(e, n));
    expect(distances).toEqual([...distances].sort((a, b) => a - b));
  });

  it('goes round a shed and on straight out behind it', () => {
    const shed = { outline: rectangle(2, 1, [4.5, 9]), clearanceM: 0.3 };
    const route = layRoute(freeArea(lot(rectangle(10, 30), [5, 5], [shed])), 5, 15);
    expectClose(route.lengthM, 15, { absolute: 1e-9 });
    // Base, front of the shed, its corner, and from there on along the line from the base.
    const [corner, behind] = [route.points[2] as Point, route.points[3] as Point];
    expect(behind[1]).toBeGreaterThan(10);
    expectClose(behind[0] * corner[1] - behind[1] * corner[0], 0, { absolute: 1e-9 });
  });
});

describe('routes keep apart', () => {
  const area = freeArea(lot(rectangle(10, 20), [5, 5]));

  it('and end short of where the next wire meets the same border', () => {
    const [first, second] = layRoutes(area, [60, 50], [12, 12]);
    // In order of bearing: the wire at 50° meets the border beyond the one at 60°, which runs toward it.
    expect([first?.bearingDeg, second?.bearingDeg]).toEqual([50, 60]);
    const gapM = distanceToChainM(second?.points.at(-1) as Point, first?.points ?? []);
    expectClose(gapM, APART_M, { absolute: 0.02 });
  });

  it('so that only one goes through a gap no wider than that', () => {
    // Between shed and border a corridor of 0.1 m, to which two borders lead.
    const shed = { outline: rectangle(3, 4, [6.4, 8]), clearanceM: 0.4 };
    const narrow = freeArea(lot(rectangle(10, 20), [5, 5], [shed]));
    const routes = layRoutes(narrow, [40, 50, 60, 70, 80], Array(5).fill(12));
    const through = routes.filter(({ points }) => points.some(([e, n]) => e > 4.5 && n > 5));
    expect(through).toHaveLength(1);
  });

  it('of two whose ends would crowd, the longer is laid', () => {
    const open = freeArea(lot(rectangle(40, 40), [20, 20]));
    expect(layRoutes(open, [0, 1], [6, 8]).map(({ lengthM }) => lengthM)).toEqual([8]);
    expect(layRoutes(open, [0, 3], [6, 8])).toHaveLength(2);
  });

  it('from wires that lie there, which end them where they cross the way', () => {
    const open = freeArea(lot(rectangle(40, 40), [20, 20]));
    const laid: Point[] = [
      [0, 0],
      [5, 0],
      [0, 5],
    ];
    const [route] = layRoutes(open, [45], [10], [laid]);
    expectClose(route?.lengthM, 5 / Math.SQRT2 - APART_M, { absolute: 0.02 });
    expect(layRoutes(open, [90], [4], [laid])).toEqual([]);
  });
});

describe('wires are spread', () => {
  it('evenly all round where the lot is open', () => {
    const area = freeArea(lot(rectangle(40, 40), [20, 20]));
    const bearings = spreadBearings(area, 16);
    const gaps = bearings.map((b, i) => ((bearings[(i + 1) % 16] as number) - b + 360) % 360);
    for (const gap of gaps) expectClose(gap, 22.5, { absolute: 1e-9 });
  });

  it('only where the lot leaves room, at a wall beside the base', () => {
    const area = freeArea(lot(rectangle(10, 20), [0.5, 10]));
    for (const bearing of spreadBearings(area, 12)) expect(bearing < 204 || bearing > 336).toBe(true);
  });

  it('into the largest gaps between wires that are there', () => {
    const area = freeArea(lot(rectangle(40, 40), [20, 20]));
    expect(spreadBearings(area, 2, [0, 90, 180])).toEqual([45, 270]);
  });
});
