import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { freeArea } from '../../src/core/layout/free-area.ts';
import { APART_M, distanceToChainM, layRoutes } from '../../src/core/layout/lay-routes.ts';
import { bearingOf, isFree, lengthOf } from '../../src/core/layout/route.ts';
import { spreadBearings } from '../../src/core/layout/spread.ts';
import type { Lot, Point } from '../../src/core/site.ts';
import { UserError } from '../../src/core/user-error.ts';

const SEED = { seed: 20261125, numRuns: 150 };

const box = (x: number, y: number, w: number, h: number): Point[] => [
  [x, y],
  [x + w, y],
  [x + w, y + h],
  [x, y + h],
];

/** Narrow lots with a handful of obstacles strewn over them, some of them overlapping. */
const lots = fc
  .record({
    width: fc.double({ min: 4, max: 25, noNaN: true }),
    depth: fc.double({ min: 8, max: 40, noNaN: true }),
    baseX: fc.double({ min: 0.1, max: 0.9, noNaN: true }),
    baseY: fc.double({ min: 0.1, max: 0.9, noNaN: true }),
    obstacles: fc.array(
      fc.record({
        x: fc.double({ min: 0, max: 0.9, noNaN: true }),
        y: fc.double({ min: 0, max: 0.9, noNaN: true }),
        w: fc.double({ min: 0.3, max: 5, noNaN: true }),
        h: fc.double({ min: 0.3, max: 5, noNaN: true }),
        kind: fc.constantFrom('building' as const, 'water' as const, 'service' as const, 'path' as const),
        clearanceM: fc.double({ min: 0, max: 0.8, noNaN: true }),
      }),
      { maxLength: 5 },
    ),
  })
  .map(
    ({ width, depth, baseX, baseY, obstacles }): Lot => ({
      outline: box(0, 0, width, depth),
      base: [baseX * width, baseY * depth],
      northDeg: 0,
      places: [],
      obstacles: obstacles.map(({ x, y, w, h, kind, clearanceM }, i) => ({
        name: `obstacle ${i}`,
        kind,
        clearanceM,
        outline: box(x * width, y * depth, w, h),
      })),
    }),
  );

/** The lot's free area, or null where the base stands on an obstacle. */
function areaOf(lot: Lot) {
  try {
    return freeArea(lot);
  } catch (error) {
    if (error instanceof UserError && error.code === 'lot-base-blocked') return null;
    throw error;
  }
}

describe('on any lot with any obstacles', () => {
  it('no wire leaves the free area, is longer than asked, or turns back toward the base', () => {
    let looked = 0;
    fc.assert(
      fc.property(
        lots,
        fc.integer({ min: 1, max: 40 }),
        fc.double({ min: 1, max: 20, noNaN: true }),
        (lot, count, m) => {
          const area = areaOf(lot);
          if (area === null) return;
          const bearings = spreadBearings(area, count);
          for (const { points, lengthM } of layRoutes(
            area,
            bearings,
            Array<number>(bearings.length).fill(m),
          )) {
            looked++;
            expect(lengthM).toBeLessThanOrEqual(m + 1e-9);
            expect(Math.abs(lengthOf(points) - lengthM)).toBeLessThan(1e-6);
            for (let i = 1; i < points.length; i++) {
              const [a, b] = [points[i - 1] as Point, points[i] as Point];
              expect(Math.hypot(...b)).toBeGreaterThanOrEqual(Math.hypot(...a) - 1e-9);
              // The middle of each stretch, drawn a hair toward the base: borders themselves belong to the area.
              for (const t of [0.1, 0.5, 0.9]) {
                const [x, y] = [a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])];
                const inside = [-1e-4, 0, 1e-4].some((dx) =>
                  [-1e-4, 0, 1e-4].some((dy) => isFree(area, [x + dx, y + dy])),
                );
                expect(inside, `${x}, ${y} of ${JSON.stringify(lot)}`).toBe(true);
              }
            }
          }
        },
      ),
      SEED,
    );
    expect(looked).toBeGreaterThan(500);
  });

  it('no two wires run together: beyond its straight way from the base each keeps apart from all others', () => {
    let looked = 0;
    fc.assert(
      fc.property(
        lots,
        fc.integer({ min: 2, max: 60 }),
        fc.double({ min: 1, max: 20, noNaN: true }),
        fc.integer({ min: 0, max: 12 }),
        (lot, count, m, laidCount) => {
          const area = areaOf(lot);
          if (area === null) return;
          const lay = (bearings: number[], laid: (readonly Point[])[] = []) =>
            layRoutes(area, bearings, Array<number>(bearings.length).fill(m), laid).map(
              ({ points }) => points,
            );
          const before = laidCount === 0 ? [] : lay(spreadBearings(area, laidCount));
          const existing = before.map(([, first]) => bearingOf(first as Point));
          const added = lay(spreadBearings(area, count, existing), before);
          for (const points of added) {
            const others = [...before, ...added].filter((other) => other !== points);
            for (const at of bentPart(points)) {
              looked++;
              const gapM = Math.min(...others.map((other) => distanceToChainM(at, other)));
              expect(gapM, JSON.stringify({ lot, at })).toBeGreaterThan(APART_M - 0.011);
            }
          }
        },
      ),
      SEED,
    );
    expect(looked).toBeGreaterThan(2000);
  });

  it('no wire ends within arm’s reach of a place, and one that ends earlier follows the way it had', () => {
    const share = fc.double({ min: 0, max: 1, noNaN: true });
    let [looked, earlier] = [0, 0];
    fc.assert(
      fc.property(
        lots,
        fc.integer({ min: 1, max: 40 }),
        fc.double({ min: 1, max: 20, noNaN: true }),
        fc.array(fc.tuple(share, share, fc.double({ min: 0, max: 5, noNaN: true })), { maxLength: 6 }),
        (lot, count, m, spots) => {
          const [, , far] = lot.outline;
          const places = spots.map(([x, y, heightM], i) => ({
            name: `place ${i}`,
            at: [x * (far?.[0] ?? 0), y * (far?.[1] ?? 0)] as const,
            heightM,
          }));
          const [area, free] = [areaOf({ ...lot, places }), areaOf(lot)];
          if (area === null || free === null) return;
          const bearings = spreadBearings(area, count);
          const lengths = Array<number>(bearings.length).fill(m);
          const before = layRoutes(free, bearings, lengths);
          for (const { points, bearingDeg } of layRoutes(area, bearings, lengths)) {
            looked++;
            const [e, n] = points.at(-1) as Point;
            for (const { at, heightM } of places) {
              // Arm's reach is 1.25 m to the side and 1.25 m down, told as 1.3 m; a person of 2 m may stand 2 m lower.
              if (heightM > 3.25) continue;
              const endM = Math.hypot(lot.base[0] + e - at[0], lot.base[1] + n - at[1]);
              expect(endM, JSON.stringify({ lot, places })).toBeGreaterThanOrEqual(1.3);
            }
            const had = before.find((route) => route.bearingDeg === bearingDeg);
            if (had === undefined || lengthOf(points) >= had.lengthM - 1e-6) continue;
            earlier++;
            expect(distanceToChainM([e, n], had.points)).toBeLessThan(1e-6);
          }
        },
      ),
      SEED,
    );
    expect(looked).toBeGreaterThan(500);
    expect(earlier).toBeGreaterThan(50);
  });
});

/** The end of the straight way from the base, and the rest every 0.1 m. */
function bentPart(points: readonly Point[]): Point[] {
  const bent = points.slice(1);
  return bent.flatMap((at, i) => {
    const next = bent[i + 1];
    if (next === undefined) return [at];
    const steps = Math.ceil(Math.hypot(next[0] - at[0], next[1] - at[1]) / 0.1);
    return Array.from({ length: steps }, (_, step): Point => {
      const share = step / steps;
      return [at[0] + share * (next[0] - at[0]), at[1] + share * (next[1] - at[1])];
    });
  });
}
