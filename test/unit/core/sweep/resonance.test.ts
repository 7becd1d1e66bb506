import { describe, expect, it } from 'vitest';
import { findResonances, fractionalBandwidth } from '../../../../src/core/sweep/resonance.ts';
import { createSweep } from '../../../../src/core/sweep/sweep.ts';
import { grid, seriesCircuit } from '../../../support/antenna-model.ts';
import { expectClose } from '../../../support/expect-close.ts';

function withReactance(x: number[]) {
  return createSweep({
    frequencyHz: Float64Array.from(x, (_, i) => (i + 1) * 1e6),
    resistanceOhm: Float64Array.from(x, (_, i) => 30 + i),
    reactanceOhm: Float64Array.from(x),
  });
}

describe('every X = 0 crossing is found once', () => {
  it('interpolates frequency and resistance between the two points around it', () => {
    const [only, ...others] = findResonances(withReactance([-3, 1]));
    expect(others).toEqual([]);
    expectClose(only?.frequencyHz, 1.75e6, { relative: 1e-12 });
    expectClose(only?.resistanceOhm, 30.75, { relative: 1e-12 });
    expect(only?.kind).toBe('series');
  });

  it('tells rising reactance (series) from falling (parallel)', () => {
    expect(findResonances(withReactance([-2, 2, 5, -5, -1, 3])).map((r) => r.kind)).toEqual([
      'series',
      'parallel',
      'series',
    ]);
  });

  it.each([
    ['a point at exactly 0 counts once', [-2, 0, 2], [2e6]],
    ['a run of zeros counts once, at its middle', [-2, 0, 0, 2], [2.5e6]],
    ['a touch without change of sign is none', [2, 0, 3], []],
    ['a sweep that begins at 0 begins at a crossing', [0, 2, 3], [1e6]],
    ['a sweep that ends at 0 ends at a crossing', [-3, -2, 0], [3e6]],
    ['a reactance of 0 throughout has no crossing', [0, 0, 0], []],
    ['no change of sign, no crossing', [5, 4, 3], []],
  ])('%s', (_, reactance, expected) => {
    expect(findResonances(withReactance(reactance)).map((r) => r.frequencyHz)).toEqual(expected);
  });

  it('gives the quality factor of a series circuit', () => {
    const sweep = seriesCircuit(
      { resistanceOhm: 40, resonanceHz: 7.1e6, qualityFactor: 12 },
      grid(6.9e6, 7.3e6, 81),
    );
    // The six points that give the slope are centred half a step (2.5 kHz, 3.5e-4 of f) off the crossing.
    expectClose(findResonances(sweep)[0]?.qualityFactor, 12, { relative: 5e-4 });
  });

  it('gives no quality factor where the resistance is not positive', () => {
    const sweep = createSweep({
      frequencyHz: Float64Array.from([1e6, 2e6]),
      resistanceOhm: Float64Array.from([-1, -1]),
      reactanceOhm: Float64Array.from([-1, 1]),
    });
    expect(findResonances(sweep)[0]?.qualityFactor).toBeNull();
  });

  it('relates bandwidth and Q so that FBW(2:1)·Q is 1/√2', () => {
    expectClose(fractionalBandwidth(10, 2) * 10, Math.SQRT1_2, { relative: 1e-12 });
  });
});
