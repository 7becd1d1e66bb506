import { describe, expect, it } from 'vitest';
import { splitAtGaps } from '../../../../src/core/drift/split-at-gaps.ts';
import { createSweep } from '../../../../src/core/sweep/sweep.ts';
import { grid } from '../../../support/antenna-model.ts';

function bandsOf(frequencyHz: Float64Array): number[][] {
  const flat = new Float64Array(frequencyHz.length).fill(50);
  const sweep = createSweep({ frequencyHz, resistanceOhm: flat, reactanceOhm: flat });
  const { shots } = splitAtGaps({ label: 'a', time: null, shots: [sweep], referenceLoad: [] });
  return shots.map((shot) => [shot.frequencyHz[0] as number, shot.frequencyHz.at(-1) as number]);
}

describe('splitAtGaps', () => {
  it('cuts a sweep over several bands into one a band', () => {
    const three = [...grid(7e6, 7.2e6, 51), ...grid(10.1e6, 10.15e6, 51), ...grid(14e6, 14.35e6, 51)];
    expect(bandsOf(Float64Array.from(three))).toEqual([
      [7e6, 7.2e6],
      [10.1e6, 10.15e6],
      [14e6, 14.35e6],
    ]);
  });

  it('leaves whole what is even, logarithmic, or finer in one part', () => {
    const logarithmic = Float64Array.from({ length: 20 }, (_, i) => 1e6 * 1.2 ** i);
    const finer = Float64Array.from([...grid(7e6, 7.1e6, 51), ...grid(7.2e6, 8e6, 9)]);
    for (const whole of [grid(1e6, 30e6, 101), logarithmic, finer, Float64Array.of(1e6, 2e6, 30e6)]) {
      expect(bandsOf(whole)).toHaveLength(1);
    }
  });
});
