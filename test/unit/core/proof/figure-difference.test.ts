import { describe, expect, it } from 'vitest';
import { figureDifference } from '../../../../src/core/proof/figure-difference.ts';
import type { Measure } from '../../../../src/core/proof/figures.ts';
import { firstOrder } from '../../../../src/core/proof/first-order.ts';
import { monteCarlo } from '../../../../src/core/proof/monte-carlo.ts';
import { NO_CORRECTION, type Pair } from '../../../../src/core/proof/pair.ts';
import { visitInBand } from '../../../../src/core/proof/visit-in-band.ts';
import { BAND, vertical } from '../../../support/compared.ts';
import { expectClose } from '../../../support/expect-close.ts';

const U = 0.005;
const known = (variance: number) => ({ variance, degreesOfFreedom: Number.POSITIVE_INFINITY });

/** Two visits of one exact sweep each, with stated errors of a visit and none of a shot. */
function pairOf(measure: Measure, before: number, after: number, more: Partial<Pair> = {}): Pair {
  const share = (r: number) => [
    { visit: visitInBand([vertical(r)], BAND, U), share: 1, shot: null, shotReflection: null },
  ];
  return {
    measure,
    sides: { before: share(before), after: share(after) },
    errors: { visit: known(U * U), visitAlone: known(U * U), turnRad: 0 },
    common: [],
    correction: NO_CORRECTION,
    ...more,
  };
}

describe('figureDifference', () => {
  it('gives R its uncertainty by the closed form of the reflection plane', () => {
    const found = figureDifference(pairOf('resistanceAtResonanceOhm', 60, 45));
    const perVisit = (r: number): number => {
      const gamma = (r - 50) / (r + 50);
      return (U * 100 * Math.sqrt(1 + gamma * gamma)) / (1 - gamma) ** 2;
    };
    expectClose(found?.difference.value, -15, { absolute: 1e-6 });
    expectClose(found?.difference.expandedUncertainty, 2 * Math.hypot(perVisit(60), perVisit(45)), {
      relative: 3e-3,
    });
    expect(found?.difference.coverageFactor).toBe(2);
    expect(found?.method).toBe('first order');
  });

  it('agrees by both ways where the figure is straight, to what 2,000 draws can tell', () => {
    for (const measure of ['resistanceAtResonanceOhm', 'resonanceHz', 'minSwr', 'swr2BandwidthHz'] as const) {
      const pair = pairOf(measure, 36, 30);
      const straight = firstOrder(pair)?.difference.expandedUncertainty ?? Number.NaN;
      const drawn = monteCarlo(pair)?.difference.expandedUncertainty;
      // 2,000 draws tell a 95 % half-width to about 3 %; the second order of 36 and 30 ohm adds 2 %. 1.96 against 2.
      expectClose(drawn, (straight * 1.96) / 2, { relative: 0.06 });
    }
  });

  it('goes by Monte Carlo for the least SWR near 1, which no straight line follows', () => {
    const pair = pairOf('minSwr', 50, 50.2);
    const found = figureDifference(pair);
    expect(found?.method).toBe('Monte Carlo');
    // The sweep passes Γ = 0 along the imaginary axis; an error beside it leaves |Re| of it, of which 95 % lie under
    // 1.96·U, and the SWR is 1 + 2|Γ| there. The first order sees a slope of nearly nothing.
    const alone = found?.before.expandedUncertainty ?? Number.NaN;
    expectClose(alone, 2 * 1.96 * U, { relative: 0.06 });
    expect(firstOrder(pair)?.before.expandedUncertainty ?? 0).toBeLessThan(alone / 2);
  });

  it('tells no k below that of a normal distribution, however heavy the tails', () => {
    // Two degrees of freedom: such a Student's t has no standard deviation, and that of the draws is set by a few of them.
    const few = { variance: 0.01 ** 2, degreesOfFreedom: 2 };
    for (const measure of ['resistanceAtResonanceOhm', 'minSwr', 'qualityFactor'] as const) {
      const found = monteCarlo(
        pairOf(measure, 60, 30, { errors: { visit: few, visitAlone: few, turnRad: 0 } }),
      );
      for (const quantity of [found?.before, found?.after, found?.difference]) {
        expect(quantity?.coverageFactor).toBeGreaterThan(1.9599);
      }
    }
  });

  it('draws the same numbers each time', () => {
    const pair = pairOf('minSwr', 50, 51);
    expect(monteCarlo(pair)).toEqual(monteCarlo(pair));
  });

  it('lets a cause that moves both visits alike drop out of the difference only', () => {
    const quiet = figureDifference(pairOf('resistanceAtResonanceOhm', 60, 45));
    const moved = figureDifference(
      pairOf('resistanceAtResonanceOhm', 60, 45, { common: [{ before: 3, after: 3 }] }),
    );
    expect(moved?.difference).toEqual(quiet?.difference);
    expect(moved?.before.expandedUncertainty).toBeGreaterThan(6);
  });

  it('takes k from few degrees of freedom, Student’s t of 4 for two pooled shots more', () => {
    const shot = { variance: 0.01 ** 2, degreesOfFreedom: 4 };
    const pair = pairOf('resistanceAtResonanceOhm', 60, 45);
    const withShot = pair.sides.before.map((shared) => ({ ...shared, shot }));
    const found = figureDifference({
      ...pair,
      sides: { before: withShot, after: pair.sides.after.map((shared) => ({ ...shared, shot })) },
      errors: { visit: known(0), visitAlone: known(0), turnRad: 0 },
    });
    expectClose(found?.difference.coverageFactor, 2.7764, { absolute: 1e-3 });
  });

  it('is null for what one of the visits does not have', () => {
    const far = visitInBand([vertical(40, 12e6)], BAND, U);
    const pair = pairOf('resonanceHz', 40, 40);
    const after = [{ visit: far, share: 1, shot: null, shotReflection: null }];
    expect(figureDifference({ ...pair, sides: { ...pair.sides, after } })).toBeNull();
  });
});
