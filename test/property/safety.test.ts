import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatLength, parseQuantity } from '../../src/core/quantity.ts';
import { arrange } from '../../src/core/safety/arrangement.ts';
import { assessSafety } from '../../src/core/safety/assess.ts';
import { keepOutCircles } from '../../src/core/safety/keep-out-circles.ts';
import { findLimitSet, limitsAt } from '../../src/core/safety/limits.ts';
import { MODES } from '../../src/core/safety/modes.ts';
import { fieldsPerLoopAmpere, loopResistanceOhm } from '../../src/core/safety/radiation.ts';
import { keptLengthM, presentLengthM, roundDownSignificant } from '../../src/core/safety/rounding.ts';
import type { Site } from '../../src/core/site.ts';
import { safetySite, withAntenna } from '../support/safety-site.ts';

// Each run computes whole profiles: shrinking a failure would take minutes.
const SEED = { endOnFailure: true, seed: 20_260_301, numRuns: 12 };
const BAD = { clear: 0, 'reduce power': 1, 'keep out': 2 } as const;

/** From the strictest to the loosest at each frequency, both fields. */
const PAIRS = [
  ['fcc-general', 'fcc-controlled'],
  ['icnirp-2020-general', 'icnirp-2020-occupational'],
  ['safety-code-6-uncontrolled', 'safety-code-6-controlled'],
] as const;

const BANDS = ['160m', '80m', '40m', '20m', '15m', '10m', '6m'] as const;

const situation = fc.record({
  band: fc.constantFrom(...BANDS),
  heightM: fc.double({ min: 1.5, max: 20, noNaN: true }),
  baseHeightM: fc.constantFrom(0, 0, 1, 2.5, 4),
  radials: fc.integer({ min: 1, max: 3 }),
  mode: fc.constantFrom(...MODES.map(({ mode }) => mode)),
  onAirFraction: fc.double({ min: 0.01, max: 1, noNaN: true }),
  powerW: fc.double({ min: 0.1, max: 5000, noNaN: true }),
  eastM: fc.double({ min: 0.1, max: 30, noNaN: true }),
  heightOfPlaceM: fc.constantFrom(0, 0, 0, 4),
});
type Situation = typeof situation extends fc.Arbitrary<infer T> ? T : never;

function siteOf(s: Situation): Site {
  const { lot, radials } = safetySite();
  return withAntenna(
    { kind: 'other', heightM: s.heightM, baseHeightM: s.baseHeightM, bands: [s.band] },
    {
      radials: radials === null ? null : { ...radials, depthM: null, count: s.radials, lengthM: null },
      lot:
        lot === null
          ? null
          : { ...lot, places: [{ name: 'place', at: [4 + s.eastM, 6], heightM: s.heightOfPlaceM }] },
      transmit: [{ band: s.band, peakPowerW: s.powerW, mode: s.mode, onAirFraction: s.onAirFraction }],
    },
  );
}

function badness(s: Situation, limits: string = 'fcc-general'): number {
  const place = assessSafety(siteOf(s), { limits }).bands[0]?.places[0];
  return BAD[place?.verdict ?? 'keep out'];
}

describe('a verdict', () => {
  it('never gets better with more power', () => {
    fc.assert(
      fc.property(situation, fc.double({ min: 1, max: 2, noNaN: true }), (s, factor) => {
        expect(badness({ ...s, powerW: s.powerW * factor })).toBeGreaterThanOrEqual(badness(s));
      }),
      SEED,
    );
  });

  it('never gets better under a stricter limit', () => {
    fc.assert(
      fc.property(situation, fc.constantFrom(...PAIRS), (s, [strict, loose]) => {
        expect(badness(s, strict)).toBeGreaterThanOrEqual(badness(s, loose));
      }),
      SEED,
    );
  });

  it('never gets better nearer to the antenna', () => {
    fc.assert(
      fc.property(situation, fc.double({ min: 0.3, max: 1, noNaN: true }), (s, factor) => {
        const nearer = { ...s, eastM: Math.max(0.06, s.eastM * factor) };
        expect(badness(nearer)).toBeGreaterThanOrEqual(badness(s));
      }),
      SEED,
    );
  });

  it('never gets better with more time on the air', () => {
    fc.assert(
      fc.property(situation, (s) => {
        expect(badness({ ...s, onAirFraction: 1 })).toBeGreaterThanOrEqual(badness(s));
      }),
      SEED,
    );
  });
});

describe('a keep-out circle', () => {
  it('contains every point over the limit at which a person’s body may be', () => {
    const point = fc.record({
      beyondM: fc.double({ min: 0, max: 20, noNaN: true }),
      bearing: fc.double({ min: 0, max: 2 * Math.PI, noNaN: true }),
      upM: fc.double({ min: 0, max: 2, noNaN: true }),
      at: fc.double({ min: 0, max: 1, noNaN: true }),
    });
    fc.assert(
      fc.property(situation, fc.array(point, { minLength: 20, maxLength: 20 }), (s, points) => {
        const site = siteOf(s);
        const radiusM = keepOutCircles(site)[0]?.radiusM ?? 0;
        const { transmission } = assessSafety(site).bands[0] ?? {};
        const { band, mode } = transmission ?? {};
        const meanW = s.powerW * (mode?.dutyFactor ?? 1) * s.onAirFraction;
        for (const p of points) {
          const frequencyHz = (band?.fromHz ?? 0) + p.at * ((band?.toHz ?? 0) - (band?.fromHz ?? 0));
          const { averaged } = limitsAt(findLimitSet('fcc-general'), frequencyHz);
          // The wires put together here anew, from the figures of the site.
          const lengthM = 71.3e6 / frequencyHz;
          const radiator = {
            heightM: s.heightM,
            radiusM: 0.0125,
            baseHeightM: s.baseHeightM,
            elevated: s.baseHeightM === 0 ? null : { count: s.radials, lengthM, radiusM: 0.8e-3 },
          };
          const arrangement = arrange(radiator, frequencyHz);
          const currentA = Math.sqrt(meanW / loopResistanceOhm(arrangement));
          const distanceM = radiusM + p.beyondM;
          const east = distanceM * Math.cos(p.bearing);
          const north = distanceM * Math.sin(p.bearing);
          const fields = fieldsPerLoopAmpere(arrangement, east, north, p.upM);
          expect(currentA * fields.electricVPerM).toBeLessThanOrEqual(averaged.electricVPerM ?? 0);
          expect(currentA * fields.magneticAPerM).toBeLessThanOrEqual(averaged.magneticAPerM ?? 0);
        }
      }),
      SEED,
    );
  });
});

describe('a place near radials on the ground', () => {
  const wire = fc.record({
    lengthM: fc.double({ min: 1, max: 15, noNaN: true }),
    bearingDeg: fc.double({ min: 0, max: 360, noNaN: true }),
  });
  const field = fc.record({
    situation,
    wires: fc.array(wire, { minLength: 1, maxLength: 12 }),
    insulated: fc.boolean(),
    depthM: fc.constantFrom(null, 0, 0.02),
    northM: fc.double({ min: -10, max: 10, noNaN: true }),
  });

  it('is never clear within the keep-off distance that is told for their ends, nor better with more power', () => {
    fc.assert(
      fc.property(field, fc.double({ min: 1, max: 2, noNaN: true }), (f, factor) => {
        const radials = f.wires.map((w, i) => ({ ...w, number: i + 1, route: null, since: null }));
        const fieldState = { since: null, radials, wireM: 0 };
        const judge = (powerW: number) => {
          const site = siteOf({ ...f.situation, powerW, baseHeightM: 0, heightOfPlaceM: 0 });
          const { radials: stock, lot } = site;
          const at = [4 + f.situation.eastM, 6 + f.northM] as const;
          return assessSafety(
            {
              ...site,
              radials: stock === null ? null : { ...stock, insulated: f.insulated, depthM: f.depthM },
              lot: lot === null ? null : { ...lot, places: [{ name: 'place', at, heightM: 0 }] },
            },
            { fieldState },
          ).bands[0];
        };
        const band = judge(f.situation.powerW);
        const keepOffM = band?.wireEnds.find(({ end }) => end === 'radial end')?.keepOffM ?? 0;
        const toEndsM = f.wires.map(({ lengthM, bearingDeg }) => {
          const bearing = (bearingDeg * Math.PI) / 180;
          const east = lengthM * Math.sin(bearing) - f.situation.eastM;
          return Math.hypot(east, lengthM * Math.cos(bearing) - f.northM);
        });
        const verdict = band?.places[0]?.verdict ?? 'clear';
        if (Math.min(...toEndsM) < keepOffM) expect(verdict).not.toBe('clear');
        expect(BAD[judge(f.situation.powerW * factor)?.places[0]?.verdict ?? 'clear']).toBeGreaterThanOrEqual(
          BAD[verdict],
        );
      }),
      { ...SEED, numRuns: 40 },
    );
  });
});

describe('rounding', () => {
  const length = fc.double({ min: 0, max: 1e4, noNaN: true });
  const units = fc.constantFrom('metric' as const, 'imperial' as const);
  /** Forgives the last bits, as the rounding does. */
  const SLACK = 1e-8;

  it('never prints less than must be kept, nor more than is there, in either unit', () => {
    fc.assert(
      fc.property(length, units, (lengthM, system) => {
        const unitM = system === 'metric' ? 1 : 0.3048;
        const printedM = (m: number) => parseQuantity(formatLength(m, system), 'length');
        const [kept, present] = [
          printedM(keptLengthM(lengthM, system)),
          printedM(presentLengthM(lengthM, system)),
        ];
        expect(kept).toBeGreaterThanOrEqual(lengthM * (1 - SLACK));
        expect(kept - lengthM).toBeLessThan(0.1 * unitM * 1.001);
        expect(present).toBeLessThanOrEqual(lengthM * (1 + SLACK));
        expect(lengthM - present).toBeLessThan(0.1 * unitM * 1.001);
      }),
      { seed: 20_260_302 },
    );
  });

  it('is not moved by being done twice', () => {
    fc.assert(
      fc.property(length, units, (lengthM, system) => {
        const once = [keptLengthM(lengthM, system), presentLengthM(lengthM, system)] as const;
        const decimals = (m: number) => formatLength(m, system);
        expect(decimals(keptLengthM(once[0], system))).toBe(decimals(once[0]));
        expect(decimals(presentLengthM(once[1], system))).toBe(decimals(once[1]));
      }),
      { seed: 20_260_303 },
    );
  });

  it('never allows more power than was computed, and takes less than a hundredth off', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-6, max: 1e6, noNaN: true }), (powerW) => {
        const told = roundDownSignificant(powerW, 3);
        expect(told).toBeLessThanOrEqual(powerW * (1 + SLACK));
        expect(told).toBeGreaterThan(powerW * 0.99);
      }),
      { seed: 20_260_304 },
    );
  });
});
