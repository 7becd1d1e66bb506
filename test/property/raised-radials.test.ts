import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Radial } from '../../src/core/record.ts';
import { type Arrangement, arrange } from '../../src/core/safety/arrangement.ts';
import { assessSafety } from '../../src/core/safety/assess.ts';
import { type Filament, filament } from '../../src/core/safety/filament.ts';
import { findLimitSet, limitsAt } from '../../src/core/safety/limits.ts';
import { pieceDistancesM } from '../../src/core/safety/nearest-wire.ts';
import type { PlaceExposure } from '../../src/core/safety/place-verdict.ts';
import { placedProfile } from '../../src/core/safety/placed-profile.ts';
import { fieldsPerLoopAmpere, loopResistanceOhm } from '../../src/core/safety/radiation.ts';
import { wayOf } from '../../src/core/safety/site-radiator.ts';
import type { Point, Site } from '../../src/core/site.ts';
import { safetySite, withAntenna } from '../support/safety-site.ts';

// Each run computes whole profiles: shrinking a failure would take minutes.
const SEED = { endOnFailure: true, seed: 20_261_125, numRuns: 5 };
const BAD = { clear: 0, 'reduce power': 1, 'keep out': 2 } as const;
const LENGTH_M = 10;
const REACH_M = 1.25;
const REACH_UP_M = 2.5;

const garden = fc.record({
  kind: fc.constantFrom('quarter-wave' as const, 'other' as const, 'half-wave' as const),
  baseHeightM: fc.constantFrom<number[]>(0.3, 0.5, 2.4, 2.5, 3),
  depthM: fc.constantFrom<(number | null)[]>(null, 0, 0.02),
  insulated: fc.boolean(),
  bearingsDeg: fc.array(fc.double({ min: 0, max: 359.9, noNaN: true }), { minLength: 1, maxLength: 6 }),
  powerW: fc.double({ min: 1, max: 2000, noNaN: true }),
  /** Where the place is: along one of the wires, and aside of it. */
  alongM: fc.double({ min: 1.5, max: 11, noNaN: true }),
  asideM: fc.double({ min: -6, max: 6, noNaN: true }),
});
type Garden = typeof garden extends fc.Arbitrary<infer T> ? T : never;

function radialsOf(g: Garden): Radial[] {
  return g.bearingsDeg.map((bearingDeg, i) => ({
    number: i + 1,
    lengthM: LENGTH_M,
    bearingDeg,
    route: null,
    since: null,
  }));
}

function pointOf({ bearingsDeg, alongM, asideM }: Garden): Point {
  const bearing = ((bearingsDeg[0] ?? 0) * Math.PI) / 180;
  const [sine, cosine] = [Math.sin(bearing), Math.cos(bearing)];
  return [alongM * sine + asideM * cosine, alongM * cosine - asideM * sine];
}

function siteOf(g: Garden): Site {
  const { lot, radials } = safetySite();
  return withAntenna(
    { kind: g.kind, heightM: g.kind === 'half-wave' ? 20 : 10, baseHeightM: g.baseHeightM },
    {
      radials:
        radials === null ? null : { ...radials, depthM: g.depthM, insulated: g.insulated, lengthM: LENGTH_M },
      lot:
        lot === null
          ? null
          : { ...lot, base: [0, 0], places: [{ name: 'path', at: pointOf(g), heightM: 0 }] },
      transmit: [{ band: '40m', peakPowerW: g.powerW, mode: 'carrier', onAirFraction: 1 }],
    },
  );
}

function judge(g: Garden, radials: readonly Radial[] = radialsOf(g)): PlaceExposure {
  const fieldState = { since: null, radials, wireM: LENGTH_M * radials.length };
  return assessSafety(siteOf(g), { fieldState }).bands[0]?.places[0] as PlaceExposure;
}

function nearestWireM(g: Garden): number {
  return Math.min(...pieceDistancesM(radialsOf(g).flatMap(wayOf), pointOf(g)));
}

describe('the verdict on a path under radials that hang', () => {
  it('never gets better with more power, nor nearer to every wire and to the base', () => {
    const part = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(garden, fc.double({ min: 1, max: 3, noNaN: true }), part, (g, factor, toWire) => {
        const here = BAD[judge(g).verdict];
        expect(BAD[judge({ ...g, powerW: g.powerW * factor }).verdict]).toBeGreaterThanOrEqual(here);
        // One wire: straight towards it comes nearer to both.
        const one = { ...g, bearingsDeg: g.bearingsDeg.slice(0, 1) };
        const nearer = { ...one, asideM: one.asideM * toWire };
        expect(BAD[judge(nearer).verdict]).toBeGreaterThanOrEqual(BAD[judge(one).verdict]);
      }),
      SEED,
    );
  });

  it('is to keep out wherever wire may be touched, whatever radials.depth says of a raised base', () => {
    fc.assert(
      fc.property(garden, (g) => {
        const { verdict, maxPowerW } = judge(g);
        const hangs = g.kind !== 'half-wave' && g.baseHeightM >= 0.5;
        const mayHang = hangs || g.depthM === null;
        const low = g.baseHeightM <= REACH_UP_M || !hangs || g.depthM !== null;
        if (mayHang && low && nearestWireM(g) < REACH_M) {
          expect([verdict, maxPowerW]).toEqual(['keep out', 0]);
        }
      }),
      { ...SEED, numRuns: 15 },
    );
  });

  it('is never better for a depth that speaks against the raised base, nor for a way that is not known', () => {
    fc.assert(
      fc.property(garden, (g) => {
        const hung = {
          ...g,
          kind: 'quarter-wave' as const,
          baseHeightM: Math.max(0.5, g.baseHeightM),
          depthM: null,
        };
        const known = judge(hung).maxPowerW;
        expect(judge({ ...hung, depthM: 0.02 }).maxPowerW).toBeLessThanOrEqual(known);
        const unknown = radialsOf(hung).map((radial) => ({ ...radial, bearingDeg: null }));
        // Bunched ones are judged as fewer where that is known: only spread ones are alike.
        if (hung.bearingsDeg.length === 1) expect(judge(hung, unknown).maxPowerW).toBeLessThanOrEqual(known);
      }),
      SEED,
    );
  });
});

describe('the fields among raised radials that point anywhere', () => {
  it('are never more than is told, for the same share of the current in each', () => {
    const bearings = fc.array(fc.double({ min: 0, max: 2 * Math.PI, noNaN: true }), {
      minLength: 2,
      maxLength: 6,
    });
    const spot = fc.record({
      distanceM: fc.double({ min: 1.3, max: 20, noNaN: true }),
      bearing: fc.double({ min: 0, max: 2 * Math.PI, noNaN: true }),
      upM: fc.double({ min: 0, max: 2, noNaN: true }),
    });
    fc.assert(
      fc.property(
        fc.constantFrom(1.8e6, 7.1e6, 14.2e6, 28.5e6),
        fc.constantFrom(2.4, 3, 5),
        bearings,
        fc.array(spot, { minLength: 30, maxLength: 30 }),
        (frequencyHz, baseHeightM, towards, spots) => {
          const lengthM = 71.3e6 / frequencyHz;
          const elevated = { count: towards.length, lengthM, radiusM: 0.8e-3 };
          const even = arrange({ heightM: 10, radiusM: 0.0125, baseHeightM, elevated }, frequencyHz);
          const told = placedProfile(even, { fromM: 0, toM: 2 }, 1);
          const real = turned(even, towards);
          const ways = towards.map((angle, i) => ({
            radial: i,
            points: [
              [0, 0],
              [lengthM * Math.cos(angle), lengthM * Math.sin(angle)],
            ] as const,
          }));
          for (const { distanceM, bearing, upM } of spots) {
            const at: Point = [distanceM * Math.cos(bearing), distanceM * Math.sin(bearing)];
            const fields = fieldsPerLoopAmpere(real, at[0], at[1], upM);
            const most = told(distanceM, pieceDistancesM(ways, at));
            expect(fields.electricVPerM).toBeLessThanOrEqual(most.electricVPerM);
            expect(fields.magneticAPerM).toBeLessThanOrEqual(most.magneticAPerM);
          }
        },
      ),
      { ...SEED, numRuns: 15 },
    );
  });

  it('leave every place that is clear within the limit, whichever way the wires go', () => {
    fc.assert(
      fc.property(
        garden,
        fc.array(fc.double({ min: 0, max: 2, noNaN: true }), { minLength: 5 }),
        (g, ups) => {
          const hung = {
            ...g,
            kind: 'quarter-wave' as const,
            baseHeightM: Math.max(2.4, g.baseHeightM),
            depthM: null,
          };
          const { maxPowerW } = judge(hung);
          if (maxPowerW === 0) return;
          const frequencyHz = 7.15e6;
          const elevated = { count: hung.bearingsDeg.length, lengthM: LENGTH_M, radiusM: 0.8e-3 };
          const even = arrange(
            { heightM: 10, radiusM: 0.0125, baseHeightM: hung.baseHeightM, elevated },
            frequencyHz,
          );
          const real = turned(
            even,
            hung.bearingsDeg.map((deg) => ((90 - deg) * Math.PI) / 180),
          );
          const currentA = Math.sqrt(maxPowerW / loopResistanceOhm(even));
          const { averaged } = limitsAt(findLimitSet('fcc-general'), frequencyHz);
          const [east, north] = pointOf(hung);
          for (const up of ups) {
            const fields = fieldsPerLoopAmpere(real, east, north, up);
            expect(currentA * fields.electricVPerM).toBeLessThanOrEqual(averaged.electricVPerM ?? 0);
            expect(currentA * fields.magneticAPerM).toBeLessThanOrEqual(averaged.magneticAPerM ?? 0);
          }
        },
      ),
      { ...SEED, numRuns: 10 },
    );
  });
});

/** The same arrangement with its radials turned to other angles, anticlockwise from east. */
function turned(even: Arrangement, towards: readonly number[]): Arrangement {
  const { all, frequencyHz, radialCount } = even;
  const turn = (wire: Filament, i: number): Filament => {
    const [, , up] = wire.direction;
    const index = (i % (radialCount + 1)) - 1;
    if (index < 0) return wire;
    const angle = towards[index] ?? 0;
    return filament({ ...wire, direction: [Math.cos(angle), Math.sin(angle), up] }, frequencyHz);
  };
  return { ...even, all: all.map(turn) };
}
