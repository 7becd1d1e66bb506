import { describe, expect, it } from 'vitest';
import { chooseLimits } from '../../../../src/core/safety/choose-limits.ts';
import { LIMIT_SETS, LIMITS_DATE } from '../../../../src/core/safety/limit-sets.ts';
import { findLimitSet, limitsAt } from '../../../../src/core/safety/limits.ts';
import { safetySite } from '../../../support/safety-site.ts';

describe('findLimitSet', () => {
  it('refuses an unknown id by the field limits, with the near miss', () => {
    expect(() => findLimitSet('fcc-genral')).toThrow(/got "fcc-genral", did you mean "fcc-general"/u);
    try {
      findLimitSet('moon');
      expect.unreachable();
    } catch (error) {
      expect(error).toMatchObject({ code: 'limits-unknown', place: { field: 'limits' } });
    }
  });

  it('knows eight sets, each with its source, its averaging time and rows for every amateur band', () => {
    expect(LIMIT_SETS).toHaveLength(8);
    expect(LIMITS_DATE).toMatch(/^\d{4}-\d{2}-\d{2}$/u);
    for (const set of LIMIT_SETS) {
      expect(set.source).not.toBe('');
      expect([6, 30]).toContain(set.averagingMinutes);
      for (const mhz of [1.8, 3.5, 5.36, 7.1, 10.1, 14.2, 18.1, 21.2, 24.9, 28.5, 52]) {
        expect(limitsAt(set, mhz * 1e6).averaged.electricVPerM).toBeGreaterThan(0);
      }
    }
  });

  it('allows the public no more than the informed under the same rule', () => {
    const pairs = [
      ['fcc-general', 'fcc-controlled'],
      ['icnirp-2020-general', 'icnirp-2020-occupational'],
      ['safety-code-6-uncontrolled', 'safety-code-6-controlled'],
      ['eu-public', 'eu-workers'],
    ] as const;
    for (const [general, informed] of pairs) {
      for (const mhz of [1.9, 7.1, 14.2, 28.5]) {
        const low = limitsAt(findLimitSet(general), mhz * 1e6).averaged;
        const high = limitsAt(findLimitSet(informed), mhz * 1e6).averaged;
        expect(low.electricVPerM).toBeLessThanOrEqual(high.electricVPerM ?? 0);
        expect(low.magneticAPerM).toBeLessThanOrEqual(high.magneticAPerM ?? 0);
      }
    }
  });

  it('refuses a frequency that the set does not cover', () => {
    expect(() => limitsAt(findLimitSet('safety-code-6-controlled'), 145e6)).toThrow(
      /no electric and magnetic/u,
    );
  });
});

describe('chooseLimits', () => {
  it('takes what is asked before what the site says', () => {
    const { set } = chooseLimits(safetySite({ limits: 'fcc-general' }), 'eu-public');
    expect(set.id).toBe('eu-public');
  });

  it.each([
    [2, 'fcc-general'],
    [1, 'icnirp-2020-general'],
    [3, 'icnirp-2020-general'],
    [null, 'icnirp-2020-general'],
  ] as const)('where nobody names limits, region %s has %s, and it is said', (region, id) => {
    const { set, why } = chooseLimits(safetySite({ limits: null, region }), null);
    expect(set.id).toBe(id);
    expect(set.covers).toBe('public');
    expect(why).toContain('the site names no limits');
  });
});
