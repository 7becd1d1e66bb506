import { describe, expect, it } from 'vitest';
import { canPlaceChange, distanceToChange } from '../../../../src/core/drift/distance-to-change.ts';
import { atPlane, feedLineOf } from '../../../../src/core/sweep/feed-line.ts';
import { createSweep, type Sweep } from '../../../../src/core/sweep/sweep.ts';
import { grid, seriesCircuit } from '../../../support/antenna-model.ts';

const VELOCITY_FACTOR = 0.66;
const line = (lengthM: number) =>
  feedLineOf({ type: 'RG-58', lengthM, velocityFactor: null, impedanceOhm: null, loss: [] });

/** An antenna seen through two lengths of line with a leak across where they meet. */
function throughLeak(firstM: number, secondM: number, leakOhm: number, f = grid(2e6, 60e6, 401)): Sweep {
  const antenna = seriesCircuit({ resistanceOhm: 40, resonanceHz: 7.1e6, qualityFactor: 9 }, f);
  const middle = atPlane(antenna, line(secondM), 'shack');
  const resistanceOhm = new Float64Array(f.length);
  const reactanceOhm = new Float64Array(f.length);
  for (let i = 0; i < f.length; i++) {
    const [r, x] = [middle.resistanceOhm[i] as number, middle.reactanceOhm[i] as number];
    const size = (r + leakOhm) ** 2 + x ** 2;
    resistanceOhm[i] = (leakOhm * (r * (r + leakOhm) + x * x)) / size;
    reactanceOhm[i] = (leakOhm * leakOhm * x) / size;
  }
  const here = createSweep({ frequencyHz: f, resistanceOhm, reactanceOhm, plane: 'feedpoint' });
  return atPlane(here, line(firstM), 'shack');
}

describe('the distance to a change', () => {
  // Two changes nearer than the resolution (3.4 m here) look like one, so the leak stays clear of the antenna.
  it.each([3, 9, 14])('finds a new leak %d m along a line of 20 m, within its uncertainty', (leakM) => {
    const found = distanceToChange(
      throughLeak(leakM, 20 - leakM, 1e9),
      throughLeak(leakM, 20 - leakM, 200),
      VELOCITY_FACTOR,
    );
    const { value, expandedUncertainty } = found.nearestM;
    expect(Math.abs((value ?? Number.NaN) - leakM)).toBeLessThan(expandedUncertainty ?? 0);
    expect(expandedUncertainty).toBeLessThan(1.5);
  });

  it('places a change of the antenna at the far end, with what the antenna itself delays', () => {
    const f = grid(2e6, 60e6, 401);
    const ends = [40, 60].map((resistanceOhm) =>
      atPlane(seriesCircuit({ resistanceOhm, resonanceHz: 7.1e6, qualityFactor: 9 }, f), line(20), 'shack'),
    ) as [Sweep, Sweep];
    const { strongestM } = distanceToChange(...ends, VELOCITY_FACTOR);
    expect(strongestM.value).toBeGreaterThan(19);
  });

  it('has no place in sweeps that are equal, or of too few points', () => {
    const sweep = throughLeak(5, 5, 1e9);
    expect(() => distanceToChange(sweep, sweep, VELOCITY_FACTOR)).toThrow('no change to place');
    const short = throughLeak(5, 5, 100, grid(2e6, 60e6, 9));
    expect(() => distanceToChange(short, short, VELOCITY_FACTOR)).toThrow('16 points');
  });

  it('is refused where the sweep is too narrow to part the ends of the line', () => {
    expect(canPlaceChange(throughLeak(5, 5, 100), VELOCITY_FACTOR, 20)).toBe(true);
    expect(canPlaceChange(throughLeak(5, 5, 100, grid(7e6, 7.2e6, 51)), VELOCITY_FACTOR, 20)).toBe(false);
  });
});
