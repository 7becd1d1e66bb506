import { describe, expect, it } from 'vitest';
import { visitInBand } from '../../../../src/core/proof/visit-in-band.ts';
import { BAND, vertical } from '../../../support/compared.ts';
import { expectClose } from '../../../support/expect-close.ts';

const STEP = 0.005;

describe('sensitivity of a visit’s figures to errors of reflection', () => {
  it('of R at X = 0 is dR/dΓ = 2·R0/(1 − Γ)², by the shift and by the tracking', () => {
    for (const r of [20, 36, 50, 80]) {
      const gamma = (r - 50) / (r + 50);
      const perShift = 100 / (1 - gamma) ** 2;
      const found = visitInBand([vertical(r)], BAND, STEP).sensitivity('resistanceAtResonanceOhm');
      expectClose(found?.gain, perShift * Math.sqrt(1 + gamma * gamma), { relative: 2e-3 });
      expect(found?.bent).toBe(false);
    }
  });

  it('of the resonance is that of X over its slope', () => {
    const found = visitInBand([vertical(50)], BAND, STEP).sensitivity('resonanceHz');
    // X moves by 100 ohm for a unit of Im Γ at 50 ohm; its slope is 2QR/f with QR = 400.
    expectClose(found?.gain, (100 * 7.1e6) / 800, { relative: 5e-3 });
  });

  it('of the least SWR bends where the match is nearly perfect, and not where it is poor', () => {
    expect(visitInBand([vertical(50)], BAND, STEP).sensitivity('minSwr')?.bent).toBe(true);
    expect(visitInBand([vertical(30)], BAND, STEP).sensitivity('minSwr')?.bent).toBe(false);
  });

  it('is null for what cannot be had', () => {
    expect(visitInBand([vertical(40, 12e6)], BAND, STEP).sensitivity('resonanceHz')).toBeNull();
  });
});
