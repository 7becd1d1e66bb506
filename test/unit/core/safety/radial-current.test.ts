import { describe, expect, it } from 'vitest';
import { assessSafety } from '../../../../src/core/safety/assess.ts';
import { baseShare, groundedLoopA, missingBaseShare } from '../../../../src/core/safety/radial-current.ts';
import { siteRadiator } from '../../../../src/core/safety/site-radiator.ts';
import { stationAt } from '../../../../src/core/safety/station.ts';
import { expectClose } from '../../../support/expect-close.ts';
import { withAntenna } from '../../../support/safety-site.ts';

const WAVELENGTH_M = 299.792458 / 7.1;

describe('baseShare', () => {
  it('is the sinusoid’s up to a quarter wave, however short the element', () => {
    expectClose(baseShare({ heightM: WAVELENGTH_M / 4 }, 7.1e6), 1, { absolute: 1e-12 });
    expectClose(baseShare({ heightM: WAVELENGTH_M / 40 }, 7.1e6), Math.sin(Math.PI / 20), {
      absolute: 1e-12,
    });
    expect(missingBaseShare({ heightM: WAVELENGTH_M / 40 }, 7.1e6)).toBe(0);
  });

  it('is never nothing near a half wave, whose feed resistance lets some current in', () => {
    expectClose(baseShare({ heightM: WAVELENGTH_M / 2 }, 7.1e6), 0.3, { absolute: 1e-12 });
    expectClose(missingBaseShare({ heightM: WAVELENGTH_M / 2 }, 7.1e6), 0.3, { absolute: 1e-9 });
  });
});

describe('a half wave', () => {
  const half = withAntenna({ kind: 'half-wave', heightM: WAVELENGTH_M / 2 });

  it('has no less current in its counterpoise than a feed resistance of 1.5 kilohm lets in', () => {
    const radiator = siteRadiator(half, null);
    const [parts] = radiator.at(7.1e6);
    if (parts === undefined || radiator.grounded === null) throw new Error('radials on the ground');
    const { currentSquaredPerW } = stationAt(parts, half.antenna, 7.1e6, 1);
    const loopA = groundedLoopA(
      parts,
      { ...radiator.grounded, count: 1 },
      7.1e6,
      Math.sqrt(currentSquaredPerW),
    );
    expect(loopA).toBeGreaterThan(Math.sqrt(1 / 1500));
  });

  it('is kept no nearer than the magnetic field of that current at its base allows', () => {
    const transmit = [{ band: '40m', peakPowerW: 10_000, mode: 'carrier', onAirFraction: 1 }];
    const { distanceM } = assessSafety({ ...half, transmit }).bands[0]?.keepOut ?? { distanceM: 0 };
    const footA = Math.sqrt(10_000 / 1500);
    // FCC, general population, at 7.3 MHz: 2.19/f A/m.
    expect(footA / (2 * Math.PI * distanceM)).toBeLessThan(2.19 / 7.3);
  });
});
