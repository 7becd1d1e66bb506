import { describe, expect, it } from 'vitest';
import { statedResistance } from '../../../../src/core/ground/stated-resistance.ts';
import { findBand } from '../../../../src/core/sweep/bands.ts';

const site = (radiationResistanceOhm: number | null, bands: string[], heightM = 10.1) => ({
  antenna: {
    kind: 'quarter-wave' as const,
    heightM,
    diameterM: 0.025,
    bands,
    baseHeightM: 0,
    radiationResistanceOhm,
  },
  region: 1 as const,
  bandEdges: {},
});
const on = (band: string, of: ReturnType<typeof site>) => statedResistance(of, findBand(band, 1));

describe('a stated radiation resistance', () => {
  it('holds as it stands where the site has one band', () => {
    expect(on('40m', site(12, ['40m']))).toEqual({ radiationResistanceOhm: 12, note: null });
    expect(on('40m', site(null, ['40m', '20m']))).toEqual({ radiationResistanceOhm: null, note: null });
  });

  it('holds of several bands on the one whose quarter wave it is', () => {
    // 36.5 ohm is a quarter wave's (any handbook); 10.1 m is one on 40 m, and near half a wave on 20 m.
    const both = site(36.5, ['20m', '40m']);
    expect(on('40m', both).radiationResistanceOhm).toBe(36.5);
    expect(on('20m', both).radiationResistanceOhm).toBeNull();
    expect(on('20m', both).note).toContain('40m suits the antenna’s height best');
    expect(on('20m', site(36.5, ['20m', '40m'], 5)).radiationResistanceOhm).toBe(36.5);
  });

  it('is not taken to another band that is asked about', () => {
    expect(on('80m', site(36.5, ['40m'])).radiationResistanceOhm).toBeNull();
  });
});
