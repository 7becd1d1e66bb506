import { add, type Complex, complex, multiply } from '../src/core/complex.ts';
import { freeArea } from '../src/core/layout/free-area.ts';
import { makePlan, type PlanRequest } from '../src/core/layout/plan.ts';
import type { Lot, Point } from '../src/core/site.ts';
import type { BenchCase } from './bench-case.ts';

const box = (x: number, y: number, w: number, h: number): Point[] => [
  [x, y],
  [x + w, y],
  [x + w, y + h],
  [x, y + h],
];

/** Twelve corners, five obstacles. */
const LOT: Lot = {
  outline: [
    [0, 0],
    [8, 0],
    [9, 3],
    [14, 3],
    [15, 8],
    [13, 12],
    [15, 18],
    [12, 24],
    [7, 25],
    [5, 21],
    [1, 20],
    [2, 9],
  ],
  base: [7, 11],
  northDeg: 0,
  places: [],
  obstacles: [
    { name: 'house', kind: 'building', outline: box(9.5, 4, 3, 3), clearanceM: 0.5 },
    { name: 'shed', kind: 'building', outline: box(3, 15, 2, 2), clearanceM: 0.3 },
    { name: 'pond', kind: 'water', outline: box(9, 18, 2, 3), clearanceM: 0.3 },
    { name: 'pipe', kind: 'service', outline: box(2.5, 4, 5, 0.1), clearanceM: 0.6 },
    { name: 'path', kind: 'path', outline: box(6, 0, 0.8, 25), clearanceM: 0 },
  ],
};

const BANDS = [
  { band: '80m', frequencyHz: 3.65e6 },
  { band: '40m', frequencyHz: 7.1e6 },
  { band: '30m', frequencyHz: 10.125e6 },
  { band: '20m', frequencyHz: 14.175e6 },
  { band: '17m', frequencyHz: 18.118e6 },
];

const request = (part: Partial<PlanRequest>): PlanRequest => ({
  area: freeArea(LOT),
  setting: {
    monopole: { heightM: 10.1, radiusM: 0.0125 },
    soil: { conductivitySPerM: 0.005, relativePermittivity: 13 },
    wireRadiusM: 0.8e-3,
    bands: BANDS,
  },
  stockM: null,
  wanted: null,
  compared: [],
  laid: [],
  elevationsDeg: [10, 25, 45],
  allowanceM: 0.15,
  units: 'metric',
  ...part,
});

/** Shortest of three runs after one to warm up, ms. */
function shortestMs(action: () => unknown): number {
  action();
  return Math.min(
    ...[1, 2, 3].map(() => {
      const start = performance.now();
      action();
      return performance.now() - start;
    }),
  );
}

function millionMultiplyAdds(): Complex {
  const turn = complex(Math.cos(1e-3), Math.sin(1e-3));
  let sum = complex(0);
  let value = complex(1);
  for (let i = 0; i < 1_000_000; i++) {
    value = multiply(value, turn);
    sum = add(sum, value);
  }
  return sum;
}

export const cases: readonly BenchCase[] = [
  {
    name: 'five-band plan of 60 bent radials, 3 elevations × 72 azimuths',
    against: 'a million complex multiply-adds',
    target: { atMost: 100 },
    run: async () =>
      shortestMs(() => makePlan(request({ wanted: { count: 60, lengthM: 8 } }))) /
      shortestMs(millionMultiplyAdds),
  },
  {
    name: 'five-band plan that spends 250 m of wire',
    against: '2 s of the clock, the limit the command is held to',
    target: { atMost: 1 },
    run: async () => shortestMs(() => makePlan(request({ stockM: [100, 100, 25, 25] }))) / 2000,
  },
];
