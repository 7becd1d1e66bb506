import { describe, expect, it } from 'vitest';
import { oneWayVariance } from '../../../../src/core/proof/analysis-of-variance.ts';
import { createRandomSource } from '../../../../src/core/proof/random.ts';
import { straightLine } from '../../../../src/core/proof/straight-line.ts';
import { mean, median, standardDeviation } from '../../../../src/core/proof/summary.ts';
import { effectiveDegreesOfFreedom, pooled } from '../../../../src/core/proof/welch.ts';
import { expectClose } from '../../../support/expect-close.ts';

describe('mean, median and standardDeviation', () => {
  it('do not lose small values beside large ones', () => {
    expect(mean([1e16, 1, -1e16, 1])).toBe(0.5);
  });
  it('take the middle of an odd count, and of the two in the middle their mean', () => {
    expect([median([3, 1, 2]), median([4, 1, 3, 2])]).toEqual([2, 2.5]);
  });
  it('know no spread of a single value', () => {
    expect(standardDeviation([7])).toBeNull();
  });
});

describe('oneWayVariance', () => {
  it('leaves out empty groups, and has no spread where there are no repeats', () => {
    const found = oneWayVariance([[1], [], [3]]);
    expect([found.betweenDf, found.withinDf, found.withinVariance, found.betweenComponent]).toEqual([
      1,
      0,
      null,
      null,
    ]);
  });
  it('never gives a negative component', () => {
    expect(
      oneWayVariance([
        [1, 9],
        [4, 6],
      ]).betweenComponent,
    ).toBe(0);
  });
});

describe('effectiveDegreesOfFreedom and pooled', () => {
  it('of equal parts is the sum of theirs', () => {
    const part = { variance: 2, degreesOfFreedom: 2 };
    expect(effectiveDegreesOfFreedom([part, part])).toBe(4);
    expect(pooled([part, null, { variance: 5, degreesOfFreedom: 4 }])).toEqual({
      variance: 4,
      degreesOfFreedom: 6,
    });
  });
  it('is infinite where nothing was estimated', () => {
    expect(effectiveDegreesOfFreedom([{ variance: 3, degreesOfFreedom: Number.POSITIVE_INFINITY }])).toBe(
      Number.POSITIVE_INFINITY,
    );
    expect(pooled([null])).toBeNull();
  });
});

describe('straightLine', () => {
  it('needs three points that are not above each other', () => {
    expect(straightLine([1, 2], [1, 2])).toBeNull();
    expect(straightLine([1, 1, 1], [1, 2, 3])).toBeNull();
  });
});

describe('createRandomSource', () => {
  it('gives the same numbers for the same seed, with the mean and spread of a normal', () => {
    const draw = () => {
      const random = createRandomSource(5);
      return Array.from({ length: 4000 }, () => random.normal());
    };
    expect(draw()).toEqual(draw());
    expectClose(mean(draw()), 0, { absolute: 0.05 });
    expectClose(standardDeviation(draw()), 1, { relative: 0.04 });
  });
});
