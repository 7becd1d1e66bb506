import { describe, expect, it } from 'vitest';
import { predictedFeedPoint } from '../../../../src/core/layout/predicted-feed-point.ts';
import { plannedResistance, plannedWords } from '../../../../src/core/proof/planned-resistance.ts';
import { expectClose } from '../../../support/expect-close.ts';

const SETTING = {
  monopole: { heightM: 10.1, radiusM: 0.0125 },
  soil: { conductivitySPerM: 0.005, relativePermittivity: 13 },
  wireRadiusM: 0.0008,
  radiationResistanceOhm: undefined,
};

const RADIALS = Array.from({ length: 16 }, (_, i) => {
  const bearingDeg = 22.5 * i;
  const rad = (bearingDeg * Math.PI) / 180;
  const end = [8 * Math.sin(rad), 8 * Math.cos(rad)] as const;
  return { number: i + 1, lengthM: 8, bearingDeg, route: [[0, 0], end] as const, since: null };
});

const measured = (value: number | null, expandedUncertainty: number | null = 1) => ({
  value,
  expandedUncertainty,
  coverageFactor: 2,
});

describe('plannedResistance', () => {
  const predicted = predictedFeedPoint(SETTING, RADIALS);
  const { lowOhm = 0, highOhm = 0 } = predicted ?? {};

  it('says how far a measured R lies beyond the range, all of its uncertainty granted', () => {
    const beyond = (value: number) => plannedResistance(SETTING, RADIALS, measured(value))?.beyondOhm;
    expect(beyond(highOhm + 0.9)).toBe(0);
    expect(beyond(lowOhm - 0.9)).toBe(0);
    expectClose(beyond(highOhm + 3), 2, { absolute: 1e-9 });
    expectClose(beyond(lowOhm - 3), -2, { absolute: 1e-9 });
  });

  it('has nothing to say without a plan, a measurement or a site that tells enough', () => {
    const byHand = RADIALS.map((radial) => ({ ...radial, route: null }));
    expect(plannedResistance(SETTING, byHand, measured(40))).toBeNull();
    expect(plannedResistance(SETTING, RADIALS, measured(null))).toBeNull();
    expect(plannedResistance(null, RADIALS, measured(40))).toBeNull();
  });

  it('tells in one sentence whether planned and measured agree', () => {
    const at = (value: number) => plannedResistance(SETTING, RADIALS, measured(value));
    const middle = (lowOhm + highOhm) / 2;
    expect(plannedWords([null, at(middle)])).toBe(
      'Planned and measured agree: at state 2 R lies within what soil and method leave open.',
    );
    expect(plannedWords([at(middle), at(highOhm + 5)])).toMatch(
      /disagree: .* by 4\.0 ohm above at state 2; more loss/u,
    );
    expect(plannedWords([at(lowOhm - 5)])).toMatch(/ohm below at state 1; less R than planned/u);
    expect(plannedWords([null])).toBe('');
  });
});
