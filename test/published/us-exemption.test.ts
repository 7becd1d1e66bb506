/**
 * Source: 47 CFR 1.1307(b)(3)(i)(A) and (C), table 1, one fixed source. Status: published; the thresholds at given
 * distances are computed from it by a program that shares nothing with this one.
 * Source: FCC 19-126, footnote 143: λ/2π may be taken as 47.7/f(MHz) m. Status: published.
 *
 * Tolerance: half of the last digit shown.
 */
import { describe, expect, it } from 'vitest';
import { nearFieldBoundaryM } from '../../src/core/safety/far-field.ts';
import { findLimitSet, limitsAt } from '../../src/core/safety/limits.ts';
import { exemptErpW, exemption } from '../../src/core/safety/us-exemption.ts';
import { expectClose } from '../support/expect-close.ts';

describe('47 CFR 1.1307(b)(3)(i)(C), table 1', () => {
  it.each([
    // MHz, R in m, threshold ERP in W
    [1.8, 30, 958333.3],
    [3.5, 15, 63367.3],
    [7, 10, 7040.8],
    [7.3, 30, 58266.1],
    [10.1, 5, 845.5],
    [14, 5, 440.1],
    [21.45, 15, 1687.1],
    [28, 10, 440.1],
    [29.7, 5, 97.8],
    [50, 10, 383.0],
    [54, 30, 3447.0],
  ])('at %d MHz and %d m exempts %d W of ERP', (mhz, distanceM, erpW) => {
    // Half of the last digit of the computed table.
    expectClose(exemptErpW(distanceM, mhz * 1e6), erpW, { absolute: 0.06 });
  });

  it.each([
    // MHz, threshold ERP in W at R = λ/2π, computed to four digits
    [1.8, 7.482e5],
    [2, 4.909e5],
    [3.5, 5.234e4],
    [4, 3.068e4],
    [5.3665, 9470],
    [7, 3271],
    [7.3, 2766],
    [10.1, 754.8],
    [14, 204.5],
    [14.35, 185.2],
    [18.168, 72.09],
    [21, 40.39],
    [21.45, 37.1],
    [24.99, 20.14],
    [28, 12.78],
    [29.7, 10.09],
    [50, 3.488],
    [54, 2.99],
  ])('at %d MHz exempts %d W of ERP at λ/2π', (mhz, erpW) => {
    const justBeyondM = nearFieldBoundaryM(mhz * 1e6) * (1 + 1e-12);
    expectClose(exemptErpW(justBeyondM, mhz * 1e6), erpW, { relative: 5e-4 });
  });

  it.each([
    [1.8, 26.507],
    [3.5, 13.632],
    [7, 6.816],
    [14, 3.408],
    [28, 1.704],
    [50, 0.954],
  ])('does not apply nearer than λ/2π: at %d MHz %d m', (mhz, boundaryM) => {
    expectClose(nearFieldBoundaryM(mhz * 1e6), boundaryM, { absolute: 0.0005 });
    expectClose(nearFieldBoundaryM(mhz * 1e6), 47.7 / mhz, { relative: 1e-3 });
    expect(exemptErpW(boundaryM - 0.001, mhz * 1e6)).toBeNull();
    expect(exemption(1, boundaryM - 0.001, mhz * 1e6)).toBe('test does not apply');
  });

  it('is the limit for the general population with full reflection: 4π·S/(4·1.64) to three digits', () => {
    for (const mhz of [1, 7, 50]) {
      const density = limitsAt(findLimitSet('fcc-general'), mhz * 1e6).averaged.powerDensityWPerM2 ?? 0;
      const threshold = exemptErpW(100, mhz * 1e6) ?? 0;
      expectClose(threshold, (4 * Math.PI * density * 100 ** 2) / (4 * 1.64), { relative: 3e-3 });
    }
  });

  it('route (A): up to 1 mW is exempt at any separation', () => {
    expect(exemption(0.001, 0.5, 1.8e6)).toBe('exempt');
    expect(exemption(0.0011, 0.5, 1.8e6)).toBe('test does not apply');
  });
});

describe('the list of powers by band of older rules (500 W on 160 to 40 m, 50 W on 10 m), repealed', () => {
  it('exempts nothing: less than its power is not exempt near the antenna', () => {
    expect(exemption(499, 5, 7.1e6)).toBe('test does not apply');
    expect(exemption(49, 1.8, 29.7e6)).toBe('no exemption');
  });

  it('forbids nothing: more than its power is exempt far from the antenna', () => {
    expect(exemption(600, 30, 7.1e6)).toBe('exempt');
    expect(exemption(60, 10, 29.7e6)).toBe('exempt');
  });
});
