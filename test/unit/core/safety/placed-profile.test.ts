import { describe, expect, it } from 'vitest';
import { arrange, type Radiator } from '../../../../src/core/safety/arrangement.ts';
import { exposureProfile, personAt } from '../../../../src/core/safety/exposure-profile.ts';
import { placedProfile } from '../../../../src/core/safety/placed-profile.ts';
import { expectClose } from '../../../support/expect-close.ts';

const raised = (baseHeightM: number): Radiator => ({
  heightM: 10,
  radiusM: 0.0125,
  baseHeightM,
  elevated: { count: 4, lengthM: 10, radiusM: 0.8e-3 },
});

describe('placedProfile', () => {
  it('falls with every distance', () => {
    const profile = placedProfile(arrange(raised(2.4), 7.1e6), personAt(0), 1);
    for (let m = 0.1; m < 60; m *= 1.3) {
      const here = profile(m, [m, 5]);
      for (const farther of [profile(m * 1.3, [m, 5]), profile(m, [m * 1.3, 5]), profile(m, [m, 6.5])]) {
        expect(farther.electricVPerM).toBeLessThanOrEqual(here.electricVPerM);
        expect(farther.magneticAPerM).toBeLessThanOrEqual(here.magneticAPerM);
      }
    }
  });

  it('tells much less between low radials than the worst bearing does under one', () => {
    const arrangement = arrange(raised(2.4), 7.1e6);
    // 8 m out, midway between two of four: 5.7 m from two of them, 8 m from the others.
    const placed = placedProfile(arrangement, personAt(0), 1)(8, [5.6, 5.6, 8, 8]);
    const worst = exposureProfile(arrangement, personAt(0))(8);
    expect(placed.electricVPerM).toBeLessThan(worst.electricVPerM / 4);
  });

  it('adds each radial by its share of the current', () => {
    const arrangement = arrange(raised(3), 7.1e6);
    const [none, one, half] = [
      placedProfile(arrangement, personAt(0), 1)(6, []),
      placedProfile(arrangement, personAt(0), 1)(6, [4]),
      placedProfile(arrangement, personAt(0), 0.5)(6, [4, 4]),
    ] as const;
    expect(one.electricVPerM).toBeGreaterThan(none.electricVPerM);
    expectClose(half.electricVPerM, one.electricVPerM, { relative: 1e-12 });
  });
});
