import { describe, expect, it } from 'vitest';
import {
  addFilamentField,
  type Filament,
  filament,
  type Vector,
} from '../../../../src/core/safety/filament.ts';
import { expectClose } from '../../../support/expect-close.ts';

const FREQUENCY_HZ = 10e6;
const K = (2 * Math.PI * FREQUENCY_HZ) / 299_792_458;
const ETA = 4e-7 * Math.PI * 299_792_458;

/**
 * The field of the same current by brute force: a chain of short dipoles, each with the exact field of a Hertzian
 * dipole (C. A. Balanis, Antenna Theory, eq. 4-8 and 4-10), E = (ηIl/4π)e^{-jkr}[(jk/r)(r̂(u·r̂) − u) +
 * (1/r² + 1/jkr³)(3r̂(u·r̂) − u)], H = (Il/4π)e^{-jkr}(jk/r + 1/r²)(u × r̂).
 */
function byDipoles(wire: Filament, point: Vector, pieces = 20_000): Float64Array {
  const sum = new Float64Array(12);
  const [ux, uy, uz] = wire.direction;
  const step = wire.lengthM / pieces;
  for (let i = 0; i < pieces; i++) {
    const s = (i + 0.5) * step;
    const moment = wire.loopA * Math.sin(K * (wire.lengthM - s)) * step;
    const d = [0, 1, 2].map(
      (c) => (point[c] as number) - (wire.start[c] as number) - s * (wire.direction[c] as number),
    ) as [number, number, number];
    const r = Math.hypot(...d);
    const [rx, ry, rz] = d.map((x) => x / r) as [number, number, number];
    const c = ux * rx + uy * ry + uz * rz;
    const cosine = Math.cos(K * r);
    const sine = -Math.sin(K * r);
    const put = (at: number, direction: number[], re: number, im: number, scale: number): void => {
      direction.forEach((x, axis) => {
        sum[at + axis] = (sum[at + axis] as number) + scale * x * (re * cosine - im * sine);
        sum[at + 3 + axis] = (sum[at + 3 + axis] as number) + scale * x * (re * sine + im * cosine);
      });
    };
    const far = [rx * c - ux, ry * c - uy, rz * c - uz];
    const near = [3 * rx * c - ux, 3 * ry * c - uy, 3 * rz * c - uz];
    put(0, far, 0, K / r, (ETA * moment) / (4 * Math.PI));
    put(0, near, 1 / r ** 2, -1 / (K * r ** 3), (ETA * moment) / (4 * Math.PI));
    const around = [uy * rz - uz * ry, uz * rx - ux * rz, ux * ry - uy * rx];
    put(6, around, 1 / r ** 2, K / r, moment / (4 * Math.PI));
  }
  return sum;
}

const UPRIGHT = filament(
  { start: [0, 0, 0], direction: [0, 0, 1], lengthM: 7, radiusM: 1e-3, loopA: 1 },
  FREQUENCY_HZ,
);
const SKEW = filament(
  {
    start: [1, -2, 3],
    direction: [0.48, 0.64, -0.6],
    lengthM: 9.5,
    radiusM: 1e-3,
    loopA: -0.7,
  },
  FREQUENCY_HZ,
);

describe('addFilamentField', () => {
  it.each([
    ['beside the start', UPRIGHT, [0.05, 0, 0.02]],
    ['beside the middle', UPRIGHT, [0, 0.05, 3.5]],
    ['off the tip', UPRIGHT, [0.03, 0.04, 7.1]],
    ['a body away', UPRIGHT, [1.3, 0.5, 1.7]],
    ['far away', UPRIGHT, [80, -60, 10]],
    ['beside a skew wire', SKEW, [2.6, 0.3, 1.2]],
    ['far from a skew wire', SKEW, [-40, 25, 5]],
  ] as const)('is the field of a chain of short dipoles %s', (_, wire, point) => {
    const actual = new Float64Array(12);
    addFilamentField(wire, ...(point as Vector), actual);
    const expected = byDipoles(wire, point as Vector);
    const size = (from: number): number => Math.hypot(...expected.subarray(from, from + 6));
    for (let i = 0; i < 12; i++) {
      // The chain is too coarse by (piece/distance)²: 1e-4 at 5 cm.
      expectClose(actual[i], expected[i] as number, { absolute: 2e-4 * size(i < 6 ? 0 : 6) });
    }
  });

  it('adds to what is there', () => {
    const once = new Float64Array(12);
    const twice = new Float64Array(12);
    addFilamentField(SKEW, 3, 3, 3, once);
    addFilamentField(SKEW, 3, 3, 3, twice);
    addFilamentField(SKEW, 3, 3, 3, twice);
    expect([...twice]).toEqual([...once].map((x) => 2 * x));
  });

  it('is finite in the wire itself, on its axis and at its tip', () => {
    for (const up of [0, 3, 7, 8]) {
      const sum = new Float64Array(12);
      addFilamentField(UPRIGHT, 0, 0, up, sum);
      expect([...sum].every(Number.isFinite)).toBe(true);
    }
  });
});
