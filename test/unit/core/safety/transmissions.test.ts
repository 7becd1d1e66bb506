import { describe, expect, it } from 'vitest';
import { findMode } from '../../../../src/core/safety/modes.ts';
import {
  AS_THE_SITE_SAYS,
  plannedTransmissions,
  unmatchedBands,
} from '../../../../src/core/safety/transmissions.ts';
import { safetySite } from '../../../support/safety-site.ts';

function field(run: () => unknown): string | undefined {
  try {
    run();
  } catch (error) {
    return (error as { place: { field?: string } }).place.field;
  }
  return 'nothing was refused';
}

describe('plannedTransmissions', () => {
  it('is what the site says', () => {
    expect(plannedTransmissions(safetySite())).toMatchObject([
      { band: { band: '40m' }, peakPowerW: 100, mode: { mode: 'cw', dutyFactor: 0.4 }, onAirFraction: 0.5 },
    ]);
  });

  it('takes each chosen figure in place of the site’s', () => {
    const [planned] = plannedTransmissions(safetySite(), {
      ...AS_THE_SITE_SAYS,
      peakPowerW: 5,
      onAirFraction: 1,
    });
    expect(planned).toMatchObject({ peakPowerW: 5, mode: { mode: 'cw' }, onAirFraction: 1 });
  });

  it('without transmissions in the site takes the choice on every band of the antenna, always on the air', () => {
    const site = safetySite({ transmit: [] });
    const planned = plannedTransmissions(site, { ...AS_THE_SITE_SAYS, peakPowerW: 50, mode: 'fm' });
    expect(planned).toMatchObject([{ band: { band: '40m' }, peakPowerW: 50, onAirFraction: 1 }]);
  });

  it('takes a chosen band that the site does not send on from the choice alone', () => {
    const choice = { band: '20m', peakPowerW: 50, mode: 'ssb', onAirFraction: null };
    expect(plannedTransmissions(safetySite(), choice)).toMatchObject([
      { band: { band: '20m' }, peakPowerW: 50 },
    ]);
  });

  it('asks for what is missing, by its field', () => {
    const site = safetySite({ transmit: [] });
    expect(field(() => plannedTransmissions(site))).toBe('transmit');
    expect(field(() => plannedTransmissions(site, { ...AS_THE_SITE_SAYS, peakPowerW: 50 }))).toBe(
      'transmit.mode',
    );
    expect(field(() => plannedTransmissions(site, { ...AS_THE_SITE_SAYS, mode: 'cw' }))).toBe(
      'transmit.peakPower',
    );
  });

  it.each([0, -5, 10_001, Number.NaN, Number.POSITIVE_INFINITY])('refuses a power of %d W', (peakPowerW) => {
    const transmit = [{ band: '40m', peakPowerW, mode: 'cw', onAirFraction: 0.5 }];
    expect(field(() => plannedTransmissions(safetySite({ transmit })))).toBe('transmit[0].peakPower');
    expect(field(() => plannedTransmissions(safetySite(), { ...AS_THE_SITE_SAYS, peakPowerW }))).toBe(
      'transmit[0].peakPower',
    );
  });

  it.each([0, 1.01, Number.NaN])('refuses %d of the time on the air', (onAirFraction) => {
    const transmit = [{ band: '40m', peakPowerW: 5, mode: 'cw', onAirFraction }];
    expect(field(() => plannedTransmissions(safetySite({ transmit })))).toBe('transmit[0].onAirFraction');
  });
});

describe('findMode', () => {
  it('takes other words for the same mode', () => {
    expect(findMode('USB').mode).toBe('ssb');
    expect(findMode('ssb processed').mode).toBe('ssb-processed');
  });

  it('refuses an unknown mode with the near miss, and says what to take for a digital one', () => {
    expect(() => findMode('rty')).toThrow(/got "rty", did you mean "rtty".*take data for any digital mode/u);
  });
});

describe('unmatchedBands', () => {
  const bandsOf = (bands: string[], sentOn: string[]) => {
    const site = safetySite();
    const transmit = sentOn.map((band) => ({
      ...(site.transmit[0] as (typeof site.transmit)[number]),
      band,
    }));
    return unmatchedBands({ ...site, antenna: { ...site.antenna, bands }, transmit });
  };

  it('are those that one list names and the other does not, each once', () => {
    expect(bandsOf(['40m', '30m'], ['40m', '20m', '20m'])).toEqual({
      onlyTransmit: ['20m'],
      onlyAntenna: ['30m'],
    });
  });

  it('are none where a list is empty', () => {
    expect(bandsOf(['40m'], [])).toEqual({ onlyTransmit: [], onlyAntenna: [] });
    expect(bandsOf([], ['40m'])).toEqual({ onlyTransmit: [], onlyAntenna: [] });
  });
});
