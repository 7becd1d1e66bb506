import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { arrange } from '../../src/core/safety/arrangement.ts';
import { assessSafety } from '../../src/core/safety/assess.ts';
import { keepOutCircles } from '../../src/core/safety/keep-out-circles.ts';
import { findLimitSet, limitsAt } from '../../src/core/safety/limits.ts';
import { MODES } from '../../src/core/safety/modes.ts';
import { fieldsPerLoopAmpere, loopResistanceOhm } from '../../src/core/safety/radiation.ts';
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
