import { describe, expect, it } from 'vitest';
import { arrange, type Radiator } from '../../../../src/core/safety/arrangement.ts';
import { exposureProfile, personAt } from '../../../../src/core/safety/exposure-profile.ts';
import { addFilamentField } from '../../../../src/core/safety/filament.ts';
import { fieldsPerLoopAmpere, loopResistanceOhm } from '../../../../src/core/safety/radiation.ts';
import { expectClose } from '../../../support/expect-close.ts';

const FREQUENCY_HZ = 7.1e6;

function raised(baseHeightM: number, count = 4, lengthM = 10): Radiator {
  return { heightM: 10, radiusM: 1e-3, baseHeightM, elevated: { count, lengthM, radiusM: 1e-3 } };
}

describe('an element over elevated radials', () => {
  it('has no level electric field along the perfect ground, where wires and images cancel', () => {
    const sum = new Float64Array(12);
    for (const wire of arrange(raised(3), FREQUENCY_HZ).all) addFilamentField(wire, 5, 2, 0, sum);
    const [eastRe = 1, northRe = 1, upRe = 0, eastIm = 1, northIm = 1] = sum;
    expectClose(Math.hypot(eastRe, northRe, eastIm, northIm), 0, { absolute: 1e-12 * Math.abs(upRe) });
  });

  it('has the power that flows through a sphere around it', () => {
    const arrangement = arrange(raised(3), FREQUENCY_HZ);
    const farM = 40_000;
    let flow = 0;
    const steps = 60;
    for (let i = 0; i < steps; i++) {
      const elevation = ((i + 0.5) * Math.PI) / 2 / steps;
      for (let j = 0; j < 8; j++) {
        const bearing = ((j + 0.5) * Math.PI) / 2 / 8;
        const level = farM * Math.cos(elevation);
        const { electricVPerM } = fieldsPerLoopAmpere(
          arrangement,
          level * Math.cos(bearing),
          level * Math.sin(bearing),
          farM * Math.sin(elevation),
        );
        const patch = farM ** 2 * Math.cos(elevation) * (Math.PI / 2 / steps) * ((2 * Math.PI) / 8);
        flow += (electricVPerM ** 2 / 376.73) * patch;
      }
    }
    // The midpoint rule over elevation is good to 1e-4; radials cross-feed a little, which both sides hold.
    expectClose(loopResistanceOhm(arrangement), flow, { relative: 1e-3 });
  });

  it('comes near the ground-based one as its base comes down', () => {
    const onGround = arrange({ heightM: 10, radiusM: 1e-3, baseHeightM: 0, elevated: null }, FREQUENCY_HZ);
    const low = arrange(raised(0.05), FREQUENCY_HZ);
    expectClose(loopResistanceOhm(low), loopResistanceOhm(onGround), {
      relative: 0.02,
    });
  });

  it('burns under a radial within reach of the head, out to its tip', () => {
    const profile = exposureProfile(arrange(raised(2), FREQUENCY_HZ), personAt(0));
    const high = exposureProfile(arrange(raised(5), FREQUENCY_HZ), personAt(0));
    expect(profile(9).electricVPerM).toBeGreaterThan(10 * high(9).electricVPerM);
  });

  it('shares among eight at most, so that many radials are told as if fewer carried the current', () => {
    expect(arrange(raised(3, 30), FREQUENCY_HZ).radialCount).toBe(8);
  });

  it('has no loop current without bound in radials near a half wave', () => {
    const half = arrange(raised(3, 2, 21.11), FREQUENCY_HZ);
    expect(Math.abs(half.radial?.loopA ?? 0)).toBeLessThan(2);
  });
});

describe('exposureProfile', () => {
  it('never rises with distance, though the fields under raised radials do', () => {
    const profile = exposureProfile(arrange(raised(2.3), FREQUENCY_HZ), personAt(0));
    for (let d = 0.05; d < 300; d *= 1.1) {
      expect(profile(d * 1.1).electricVPerM).toBeLessThanOrEqual(profile(d).electricVPerM);
      expect(profile(d * 1.1).magneticAPerM).toBeLessThanOrEqual(profile(d).magneticAPerM);
    }
  });

  it('takes a place with a height as floor or as what one leans on: from a body below to a body above', () => {
    expect(personAt(0)).toEqual({ fromM: 0, toM: 2 });
    expect(personAt(1)).toEqual({ fromM: 0, toM: 3 });
    expect(personAt(5)).toEqual({ fromM: 3, toM: 7 });
  });
});
