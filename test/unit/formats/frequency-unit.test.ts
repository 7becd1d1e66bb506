import { describe, expect, it } from 'vitest';
import { frequencyUnit, plausibleUnits, toHz } from '../../../src/formats/frequency-unit.ts';

describe('the unit of a frequency', () => {
  it('is known in any case', () => {
    expect(['hz', 'KHZ', 'Mhz', 'gHz', 'm'].map(frequencyUnit)).toEqual(['Hz', 'kHz', 'MHz', 'GHz', null]);
  });

  it('is plausible where the range touches an amateur band', () => {
    expect(plausibleUnits(7, 7.2)).toEqual(['MHz']);
    expect(plausibleUnits(3500, 3800)).toEqual(['kHz']);
    expect(plausibleUnits(7e6, 7.2e6)).toEqual(['Hz']);
    expect(plausibleUnits(0.0018, 0.03)).toEqual(['GHz']);
    expect(plausibleUnits(10, 3000)).toEqual(['kHz', 'MHz']);
    expect(plausibleUnits(144, 146)).toEqual([]);
  });

  it('gives whole hertz where only the last bit says otherwise', () => {
    expect(toHz(7.05, 1e6)).toBe(7_050_000);
    expect(toHz(0.0071, 1e9)).toBe(7_100_000);
    expect(toHz(7.0123456789, 1e6)).toBe(7.0123456789 * 1e6);
  });
});
