import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { describe, expect, it } from 'vitest';
import { findChangePoint } from '../../../../src/core/drift/change-point.ts';

/** Sums of twelve uniform numbers less six: nearly normal, standard deviation 1. */
function whiteNoise(seed: number, length: number): Float64Array {
  const random = xoroshiro128plus(seed);
  return Float64Array.from({ length }, () => {
    let sum = -6;
    for (let i = 0; i < 12; i++) sum += uniformFloat64(random);
    return sum;
  });
}

/** First-order memory: x = r·x before + noise. */
function withMemory(noise: Float64Array, r: number): Float64Array {
  let last = 0;
  return noise.map((e) => {
    last = r * last + e;
    return last;
  });
}

function shareWithStep(series: (seed: number) => Float64Array): number {
  let found = 0;
  for (let seed = 1; seed <= 200; seed++) if ((findChangePoint(series(seed))?.evidence ?? -1) > 0) found++;
  return found / 200;
}

describe('a change of level', () => {
  it('is found in less than a tenth of white series that have none', () => {
    expect(shareWithStep((seed) => whiteNoise(seed, 80))).toBeLessThan(0.1);
  });

  it('is seldom seen in series with memory, which a test for independent values would be full of', () => {
    expect(shareWithStep((seed) => withMemory(whiteNoise(seed, 80), 0.6))).toBeLessThan(0.15);
  });

  it('of three standard deviations is nearly always found', () => {
    const stepped = (seed: number) => whiteNoise(seed, 24).map((x, i) => x + (i < 15 ? 0 : 3));
    expect(shareWithStep(stepped)).toBeGreaterThan(0.95);
  });

  it('needs two segments of the shortest length', () => {
    expect(findChangePoint(Float64Array.of(1, 1, 1, 9, 9))).toBeNull();
    expect(findChangePoint(Float64Array.of(1, 1.1, 0.9, 9, 9.1, 8.9))?.index).toBe(3);
  });

  it('is not there in a constant series', () => {
    expect(findChangePoint(new Float64Array(20).fill(41.5))?.evidence).toBeLessThan(0);
  });
});
