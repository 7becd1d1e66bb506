import { describe, expect, it } from 'vitest';
import { simulatedAntenna } from '../../../../src/instrument/simulator/simulated-antenna.ts';

describe('simulatedAntenna', () => {
  it('shows something passive at every frequency of the instrument', () => {
    const antenna = simulatedAntenna(null, [], 'feedpoint');
    for (let frequencyHz = 100_000; frequencyHz <= 60_000_000; frequencyHz += 490_000) {
      const { re, im } = antenna(frequencyHz);
      expect(re, `at ${frequencyHz} Hz`).toBeGreaterThan(0);
      expect(Number.isFinite(im)).toBe(true);
    }
  });

  it('is the ground model where that holds: resonant just below its quarter wave, with ground loss in R', () => {
    const antenna = simulatedAntenna(null, [], 'feedpoint');
    expect(antenna(6_900_000).im).toBeLessThan(0);
    expect(antenna(7_300_000).im).toBeGreaterThan(0);
    expect(antenna(7_060_000).re).toBeGreaterThan(36.5);
  });
});
