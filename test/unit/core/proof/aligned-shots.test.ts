import { describe, expect, it } from 'vitest';
import { alignShots } from '../../../../src/core/proof/aligned-shots.ts';
import { coverage, withReference } from '../../../../src/core/proof/coverage.ts';
import { createScalarSweep } from '../../../../src/core/sweep/sweep.ts';
import { grid } from '../../../support/antenna-model.ts';
import { BAND, GRID, vertical } from '../../../support/compared.ts';
import { expectClose } from '../../../support/expect-close.ts';
import { userErrorOf } from '../../../support/user-error-of.ts';

describe('alignShots', () => {
  it('puts shots of other grids on the first one’s, cut to what all cover', () => {
    const { mean, each } = alignShots([vertical(45), vertical(45, 7.1e6, grid(6.9e6, 7.3e6, 90))]);
    expect(each.map(({ frequencyHz }) => frequencyHz)).toEqual([mean.frequencyHz, mean.frequencyHz]);
    expect(mean.frequencyHz[0]).toBeGreaterThanOrEqual(6.9e6);
  });

  it('reads all as scalar where one is, and averages the squares of the reflection', () => {
    const scalar = createScalarSweep({ frequencyHz: GRID, swr: GRID.map(() => 3) });
    const { mean, each } = alignShots([
      scalar,
      createScalarSweep({ frequencyHz: GRID, swr: GRID.map(() => 1) }),
    ]);
    expect(each.every(({ kind }) => kind === 'swr')).toBe(true);
    const size = Math.sqrt((0.5 ** 2 + 0) / 2);
    expectClose(mean.kind === 'swr' ? mean.swr[0] : null, (1 + size) / (1 - size), { relative: 1e-12 });
    expect(alignShots([scalar, vertical(45)]).mean.kind).toBe('swr');
  });

  it('refuses shots that share no frequencies', () => {
    expect(userErrorOf(() => alignShots([vertical(45), vertical(45, 14e6, grid(13e6, 15e6, 20))]))).toEqual([
      'shots-apart',
      undefined,
    ]);
  });
});

describe('coverage and withReference', () => {
  it('give the part of a band that all sweeps cover, and sweeps against one reference', () => {
    const part = vertical(45, 7.1e6, grid(7.05e6, 7.5e6, 20));
    expect(coverage(BAND, [vertical(45), part])).toEqual({ band: '40m', fromHz: 7.05e6, toHz: 7.2e6 });
    expect(coverage({ band: '20m', fromHz: 14e6, toHz: 14.35e6 }, [part])).toBeNull();
    expect(withReference([part], 75)[0]?.referenceOhm).toBe(75);
    expect(withReference([part], 50)[0]).toBe(part);
  });
});
