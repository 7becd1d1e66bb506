import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { MEASURES } from '../../../../src/core/proof/figures.ts';
import { SHOWN_AS } from '../../../../src/core/proof/shown-as.ts';
import { signedText, toldMeasure, toldText } from '../../../../src/core/proof/told-measure.ts';
import { UNKNOWN_QUANTITY } from '../../../../src/core/quantity-with-uncertainty.ts';

const quantity = (value: number, expandedUncertainty: number | null = 1) => ({
  value,
  expandedUncertainty,
  coverageFactor: 2,
});

const R = { measure: 'resistanceAtResonanceOhm' };
const BANDWIDTH = { measure: 'swr2BandwidthHz' };

describe('toldMeasure', () => {
  it('tells the difference of what is shown, so that a row adds up', () => {
    const { before, after, difference } = toldMeasure({
      ...R,
      before: quantity(52.34),
      after: quantity(39.26),
      difference: quantity(-13.08, 3.3),
    });
    expect([toldText(before), toldText(after), signedText(difference)]).toEqual(['52.3', '39.3', '-13.0']);
  });

  it('states what moisture accounts for as a figure of its own', () => {
    const told = toldMeasure({
      ...R,
      before: quantity(44.8),
      after: quantity(42.8),
      difference: quantity(-3, 1.2),
      soilCorrection: -1,
    });
    expect([signedText(told.byMoisture), signedText(told.difference)]).toEqual(['+1.0', '-3.0']);
  });

  it('adds up for any row: after less before less moisture is the difference', () => {
    const size = fc.double({ min: 0.1, max: 1e3, noNaN: true });
    fc.assert(
      fc.property(
        fc.constantFrom(...MEASURES),
        size,
        size,
        fc.double({ min: -50, max: 50, noNaN: true }),
        fc.double({ min: 1e-3, max: 0.09, noNaN: true }),
        (measure, a, b, soilCorrection, part) => {
          const u = part * Math.max(a, b);
          const { before, after, byMoisture, difference } = toldMeasure({
            measure,
            before: quantity(a, null),
            after: quantity(b, null),
            difference: quantity(b - a + soilCorrection, u),
            soilCorrection,
          });
          const scale = SHOWN_AS[measure].differencePerSi / SHOWN_AS[measure].perSi;
          const sum = (after.value - before.value) * scale - byMoisture.value;
          expect(Math.abs(sum - difference.value)).toBeLessThanOrEqual(0.001 * 10 ** -difference.decimals);
        },
      ),
      { seed: 5, numRuns: 300 },
    );
  });

  it('tells an open-ended bandwidth as a bound, and the difference to one as a bound too', () => {
    const open = { ...UNKNOWN_QUANTITY, atLeast: 2_697_400 };
    const { before, difference } = toldMeasure({
      ...BANDWIDTH,
      before: open,
      after: quantity(900e3),
      difference: { ...UNKNOWN_QUANTITY, atMost: -1_797_400 },
    });
    expect([toldText(before), signedText(difference)]).toEqual(['≥ 2697', '≤ -1797']);
    const both = toldMeasure({ ...BANDWIDTH, before: open, after: open, difference: UNKNOWN_QUANTITY });
    expect(toldText(both.difference)).toBe('cannot be told');
  });

  it('tells nothing of a figure whose uncertainty is as large as itself', () => {
    const told = toldMeasure({
      measure: 'qualityFactor',
      before: quantity(5, 0.4),
      after: quantity(80, 220),
      difference: quantity(75, 221),
    });
    expect([toldText(told.before), toldText(told.after), toldText(told.difference)]).toEqual([
      '5.00',
      'cannot be told',
      'cannot be told',
    ]);
    expect(toldText(told.uncertainty)).toBe('-');
    expect(told.coverageFactor).toBeNull();
  });
});
