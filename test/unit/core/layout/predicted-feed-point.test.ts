import { describe, expect, it } from 'vitest';
import { feedPointImpedanceOhm } from '../../../../src/core/ground/feed-point.ts';
import { uniformField } from '../../../../src/core/ground/radial-field.ts';
import {
  type PredictedFeedPoint,
  predictedFeedPoint,
} from '../../../../src/core/layout/predicted-feed-point.ts';
import { expectClose } from '../../../support/expect-close.ts';

const SETTING = {
  monopole: { heightM: 10.1, radiusM: 0.0125 },
  soil: { conductivitySPerM: 0.005, relativePermittivity: 13 },
  wireRadiusM: 0.8e-3,
  radiationResistanceOhm: undefined,
};

const radials = (count: number, lengthM = 10) =>
  Array.from({ length: count }, (_, i) => ({
    number: i + 1,
    lengthM,
    bearingDeg: (i * 360) / count,
    route: null,
    since: null,
  }));

describe('the feed point that laid radials promise', () => {
  it('is the impedance of the even field where its reactance is zero', () => {
    const { resonanceHz, resistanceOhm } = predictedFeedPoint(SETTING, radials(24)) as PredictedFeedPoint;
    const field = uniformField(24, 10, SETTING.wireRadiusM);
    const { re, im } = feedPointImpedanceOhm({ ...SETTING, field, frequencyHz: resonanceHz });
    expectClose(im, 0, { absolute: 0.05 });
    expectClose(re, resistanceOhm, { absolute: 0.01 });
  });

  it('falls with every doubling of the wires, within a range that holds it', () => {
    const found = [8, 16, 32, 64].map((count) => predictedFeedPoint(SETTING, radials(count)));
    const resistances = found.map((each) => each?.resistanceOhm as number);
    expect(resistances).toEqual([...resistances].sort((a, b) => b - a));
    for (const each of found) {
      expect(each?.lowOhm).toBeLessThan(each?.resistanceOhm as number);
      expect(each?.highOhm).toBeGreaterThan(each?.resistanceOhm as number);
    }
  });

  it('is less certain with few radials, and says so', () => {
    const [few, many] = [4, 32].map((count) => predictedFeedPoint(SETTING, radials(count)));
    const width = (each: typeof few) => (each?.highOhm as number) - (each?.lowOhm as number);
    expect(width(few)).toBeGreaterThan(2 * width(many));
    expect(few?.outside.join()).toContain('too few');
  });

  it('lies near the resonance of the element alone, moved by the ground', () => {
    const hertz = predictedFeedPoint(SETTING, radials(32))?.resonanceHz as number;
    expectClose(hertz, 7.1e6, { relative: 0.04 });
  });

  it('cannot be had without radials', () => {
    expect(predictedFeedPoint(SETTING, [])).toBeNull();
  });
});
