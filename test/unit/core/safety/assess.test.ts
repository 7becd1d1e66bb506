import { describe, expect, it } from 'vitest';
import { assessSafety } from '../../../../src/core/safety/assess.ts';
import { keepOutCircles } from '../../../../src/core/safety/keep-out-circles.ts';
import { verdictFor } from '../../../../src/core/safety/place-verdict.ts';
import { AS_THE_SITE_SAYS } from '../../../../src/core/safety/transmissions.ts';
import type { LotPlace, Site } from '../../../../src/core/site.ts';
import { safetySite, withAntenna } from '../../../support/safety-site.ts';

function send(peakPowerW: number, band = '10m', mode = 'carrier'): Partial<Site> {
  return { transmit: [{ band, peakPowerW, mode, onAirFraction: 1 }] };
}

/** A quarter wave for 10 m, on which limits are met far out. */
function tenMetres(rest: Partial<Site>): Site {
  return withAntenna({ heightM: 2.55, bands: ['10m'] }, rest);
}

function at(...place: Partial<LotPlace>[]): Partial<Site> {
  const lot = safetySite().lot;
  const places = place.map((p, i) => ({ name: `place ${i}`, at: [9, 6] as const, heightM: 0, ...p }));
  return { lot: lot === null ? null : { ...lot, places } };
}

describe('assessSafety', () => {
  it('averages power over mode and share of the time, and rounds it up', () => {
    const [band] = assessSafety(safetySite()).bands;
    expect(band?.averagePowerW).toBe(20);
    const odd = { transmit: [{ band: '40m', peakPowerW: 33.333, mode: 'ssb', onAirFraction: 0.1 }] };
    expect(assessSafety(safetySite(odd)).bands[0]?.averagePowerW).toBe(0.67);
  });

  it('keeps everybody out of arm’s reach at any power, with a power of zero', () => {
    const [band] = assessSafety(safetySite(send(0.5, '40m'))).bands;
    expect(band?.keepOut).toEqual({ distanceM: 1.3, basis: 'arm’s reach' });
    expect(band?.places[1]).toMatchObject({ name: 'step', verdict: 'keep out', maxPowerW: 0 });
  });

  it('says of one place clear, reduce power and keep out as power rises or the place comes nearer', () => {
    const verdict = (powerW: number, east: number): string | undefined =>
      assessSafety(tenMetres({ ...send(powerW), ...at({ at: [4 + east, 6] }) })).bands[0]?.places[0]?.verdict;
    expect(verdict(100, 12)).toBe('clear');
    expect(verdict(1500, 12)).toBe('reduce power');
    expect(verdict(1500, 1)).toBe('keep out');
  });

  it('has the verdict change at the power it names', () => {
    const place = at({ at: [7, 6] });
    const limit = assessSafety(tenMetres({ ...send(100), ...place })).bands[0]?.places[0]?.maxPowerW ?? 0;
    const verdict = (powerW: number): string | undefined =>
      assessSafety(tenMetres({ ...send(powerW), ...place })).bands[0]?.places[0]?.verdict;
    expect(verdict(limit)).toBe('clear');
    expect(verdict(limit * 1.001)).toBe('reduce power');
  });

  it('has no clear place inside the keep-out distance, and every place outside it clear', () => {
    const { bands } = assessSafety(tenMetres({ ...send(1500), ...at() }));
    const edge = bands[0]?.keepOut.distanceM ?? 0;
    const verdict = (distanceM: number): string | undefined =>
      assessSafety(tenMetres({ ...send(1500), ...at({ at: [4 + distanceM, 6] }) })).bands[0]?.places[0]
        ?.verdict;
    expect(edge).toBeGreaterThan(5);
    expect(verdict(edge - 0.01)).toBe('reduce power');
    expect(verdict(edge + 0.001)).toBe('clear');
  });

  it('refuses a place on the antenna itself, by its field', () => {
    try {
      assessSafety(safetySite(at({}, { at: [4.01, 6] })));
      expect.unreachable();
    } catch (error) {
      expect(error).toMatchObject({ code: 'place-inside-antenna', place: { field: 'lot.places[1].at' } });
    }
  });

  it('puts the power that is not radiated to the credit of the place', () => {
    const allowed = (efficiency: number): number =>
      assessSafety(safetySite(), { efficiency }).bands[0]?.places[0]?.maxPowerW ?? 0;
    expect(allowed(0.5) / allowed(1)).toBeGreaterThan(1.99);
    expect(allowed(0.5) / allowed(1)).toBeLessThan(2.01);
    expect(() => assessSafety(safetySite(), { efficiency: 0 })).toThrow(/efficiency above 0 %/u);
    expect(assessSafety(safetySite()).assumptions.join(' ')).toContain('all power is taken as radiated');
  });

  it('holds levels against nerve stimulation against peak power, whatever the mode', () => {
    const keepOut = (mode: string) => {
      const transmit = [{ band: '80m', peakPowerW: 1500, mode, onAirFraction: 0.2 }];
      const site = withAntenna({ heightM: 19, bands: ['80m'] }, { transmit, limits: 'icnirp-2020-general' });
      return assessSafety(site).bands[0]?.keepOut;
    };
    expect(keepOut('ssb')?.basis).toBe('electric field at peak power');
    expect(keepOut('ssb')).toEqual(keepOut('cw'));
  });

  it('uses the US test under US limits alone', () => {
    const exemptions = (limits: string) =>
      assessSafety(safetySite(), { limits }).bands[0]?.places.map(({ exemption }) => exemption);
    expect(exemptions('fcc-general')).toContain('test does not apply');
    expect(exemptions('eu-public')).toEqual([null, null, null, null]);
  });

  it('says that bands are not summed, and what else the method leaves out', () => {
    const text = assessSafety(withAntenna({ kind: 'half-wave' })).limitsOfMethod.join(' ');
    expect(text).toContain('judged alone');
    expect(text).toContain('half wave');
    expect(text).not.toContain('recalled');
    const recalled = assessSafety(safetySite({ limits: 'eu-public' })).limitsOfMethod.join(' ');
    expect(recalled).toContain('recalled and not read');
    const informed = assessSafety(safetySite({ limits: 'fcc-controlled' })).limitsOfMethod.join(' ');
    expect(informed).toContain('Neighbours, visitors and children need');
  });

  it('takes the larger current where the site gives a resistance, and for a loaded one the given', () => {
    const tip = (change: Partial<Site['antenna']>): number =>
      assessSafety(withAntenna(change)).bands[0]?.wireEnds[0]?.rmsVoltageV ?? 0;
    const computed = tip({});
    expect(tip({ radiationResistanceOhm: 60 })).toBe(computed);
    expect(tip({ radiationResistanceOhm: 10 })).toBeGreaterThan(1.5 * computed);
    expect(tip({ radiationResistanceOhm: 60, kind: 'other' })).toBeLessThan(computed);
  });

  it('gives the voltage at the ends as the peak at peak power', () => {
    const [tip] = assessSafety(safetySite()).bands[0]?.wireEnds ?? [];
    expect(tip?.end).toBe('element tip');
    expect(Math.abs((tip?.peakVoltageV ?? 0) - (tip?.rmsVoltageV ?? 0) * Math.SQRT2)).toBeLessThan(2);
  });

  it('never calls anything safe', () => {
    expect(JSON.stringify(assessSafety(safetySite()))).not.toMatch(/\bsafe\b/iu);
  });
});

describe('verdictFor', () => {
  it('keeps out where less than a watt is left, and never for too much power alone', () => {
    expect(verdictFor(0.5, 0.6)).toBe('clear');
    expect(verdictFor(5, 0.6)).toBe('keep out');
    expect(verdictFor(10_000, 1)).toBe('reduce power');
  });
});

describe('keepOutCircles', () => {
  it('are drawn around the base, the largest first', () => {
    const site = safetySite({
      transmit: [
        { band: '40m', peakPowerW: 100, mode: 'cw', onAirFraction: 0.5 },
        { band: '10m', peakPowerW: 1500, mode: 'carrier', onAirFraction: 1 },
      ],
    });
    const circles = keepOutCircles(site);
    expect(circles.map(({ band }) => band)).toEqual(['10m', '40m']);
    expect(circles[0]?.centre).toEqual([4, 6]);
    expect(circles[0]?.radiusM).toBeGreaterThan(circles[1]?.radiusM ?? 0);
  });

  it('are none where there is no lot, or nothing is sent', () => {
    expect(keepOutCircles(safetySite({ lot: null }))).toEqual([]);
    expect(keepOutCircles(safetySite({ transmit: [] }))).toEqual([]);
  });

  it('tells where the bands of the antenna and those that are sent on differ, unless one is asked for', () => {
    const site = safetySite();
    const apart = { ...site, antenna: { ...site.antenna, bands: ['40m', '30m'] } };
    expect(assessSafety(apart).assumptions).toContain(
      'antenna.bands names 30m, which transmit does not: no field is told there',
    );
    const choice = { ...AS_THE_SITE_SAYS, band: '40m' };
    expect(assessSafety(apart, { choice }).assumptions.join()).not.toContain('antenna.bands names');
  });
});
