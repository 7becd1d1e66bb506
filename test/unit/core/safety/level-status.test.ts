import { describe, expect, it } from 'vitest';
import { levelStatus } from '../../../../src/core/safety/level-status.ts';
import { LIMIT_SETS } from '../../../../src/core/safety/limit-sets.ts';
import { findLimitSet } from '../../../../src/core/safety/limits.ts';

describe('levelStatus', () => {
  it('tells levels that were read from recalled ones, neighbouring stretches put together', () => {
    expect(levelStatus(findLimitSet('icnirp-2020-general', ''))).toEqual({
      read: [
        // Below 30 MHz the set has no power density; where a row has all or both fields, it is told as whole.
        { levels: 'averaged', field: null, fromMhz: 0.1, toMhz: 400 },
      ],
      recalled: [{ levels: 'at every moment', field: null, fromMhz: 0.003, toMhz: 10 }],
    });
    expect(levelStatus(findLimitSet('eu-workers', '')).read).toEqual([
      { levels: 'averaged', field: 'electric', fromMhz: 3.59, toMhz: 400 },
      { levels: 'at every moment', field: null, fromMhz: 0.003, toMhz: 3.59 },
    ]);
  });

  it('leaves no row of any set out', () => {
    for (const set of LIMIT_SETS) {
      const { read, recalled } = levelStatus(set);
      for (const row of [...set.averaged, ...set.instantaneous]) {
        const told = row.status === 'published' ? read : recalled;
        expect(told.some(({ fromMhz, toMhz }) => fromMhz <= row.fromMhz && row.toMhz <= toMhz)).toBe(true);
      }
    }
  });
});
