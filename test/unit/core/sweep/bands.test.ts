import { describe, expect, it } from 'vitest';
import { bandsOfRegion, findBand } from '../../../../src/core/sweep/bands.ts';

describe('amateur bands', () => {
  it('differ by region and rise in frequency', () => {
    expect(findBand('40m', 1).toHz).toBe(7.2e6);
    expect(findBand('40m', 2).toHz).toBe(7.3e6);
    const edges = bandsOfRegion(3).flatMap((band) => [band.fromHz, band.toHz]);
    expect(edges).toEqual([...edges].sort((a, b) => a - b));
  });

  it('are found however people write them', () => {
    for (const name of ['40m', '40 m', '40M', '40']) expect(findBand(name, 1).band).toBe('40m');
    expect(() => findBand('41m', 1)).toThrow('160m, 80m');
  });

  it('that are unknown are told with the near miss by wavelength', () => {
    expect(() => findBand('41m', 1)).toThrow(', did you mean "40m"?');
    expect(() => findBand('75', 1)).toThrow(', did you mean "80m"?');
    expect(() => findBand('2m', 1)).toThrow(/6m$/u);
    expect(() => findBand('40m'.repeat(5000), 1)).toThrow(/^.{40,200}$/u);
    expect(() => findBand('4om', 1)).toThrow(', did you mean "40m"?');
  });

  it('yield to the edges that a site states', () => {
    expect(findBand('60m', 1, { '60m': [5.25e6, 5.45e6] })).toEqual({
      band: '60m',
      fromHz: 5.25e6,
      toHz: 5.45e6,
    });
  });
});
