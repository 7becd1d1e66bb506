import { describe, expect, it } from 'vitest';
import { reflectionColumns } from '../../../../src/core/sweep/reflection.ts';
import { averageShots } from '../../../../src/core/sweep/repeats.ts';
import { createSweep } from '../../../../src/core/sweep/sweep.ts';
import { grid, seriesCircuit } from '../../../support/antenna-model.ts';
import { expectClose } from '../../../support/expect-close.ts';

const shot = (resistanceOhm: number, f = grid(7e6, 7.2e6, 11)) =>
  seriesCircuit({ resistanceOhm, resonanceHz: 7.1e6, qualityFactor: 9 }, f);

describe('the shots of a visit', () => {
  it('are averaged as reflection coefficients, not as ohms', () => {
    const flat = (r: number) =>
      createSweep({
        frequencyHz: Float64Array.from([1e6, 2e6]),
        resistanceOhm: Float64Array.from([r, r]),
        reactanceOhm: Float64Array.from([0, 0]),
      });
    // Γ = 0 and 1/3, mean 1/6, which is 70 ohm; the mean of 50 and 100 ohm would be 75.
    expectClose(averageShots([flat(50), flat(100)]).mean.resistanceOhm[0], 70, { relative: 1e-12 });
  });

  it('keep their spread', () => {
    const { spread, count } = averageShots([shot(40), shot(44)]);
    const [a, b] = [reflectionColumns(shot(40)), reflectionColumns(shot(44))];
    expect(count).toBe(2);
    expectClose(spread?.re[3], Math.abs((a.re[3] ?? 0) - (b.re[3] ?? 0)) / Math.SQRT2, { relative: 1e-9 });
  });

  it('of one are what they are, without a spread', () => {
    const only = shot(40);
    expect(averageShots([only])).toEqual({ mean: only, count: 1, spread: null });
  });

  it('on unequal grids meet on the first one’s grid, cut to what all cover', () => {
    const { mean } = averageShots([shot(40), shot(40, grid(7.05e6, 7.3e6, 33))]);
    expect(mean.frequencyHz[0]).toBeGreaterThanOrEqual(7.05e6);
    expectClose(mean.resistanceOhm[2], 40, { relative: 1e-3 });
  });

  it('that share no frequencies are refused', () => {
    expect(() => averageShots([shot(40), shot(40, grid(14e6, 14.3e6, 5))])).toThrow(
      'share less than two points',
    );
  });
});
