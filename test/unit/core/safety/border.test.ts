import { describe, expect, it } from 'vitest';
import { endsNearBorder } from '../../../../src/core/safety/border.ts';
import type { Lot, Point } from '../../../../src/core/site.ts';
import { safetySite } from '../../../support/safety-site.ts';

/** From the base at 4 m east, 6 m north of a corner; the lot is 20 m by 15 m. */
const wires = (...ends: Point[]) => ends.map((end, i) => ({ radial: i + 1, points: [[0, 0], end] as const }));

describe('endsNearBorder', () => {
  const lot = safetySite().lot as Lot;

  it('names the radials whose end is nearer to the border than arm’s reach, on every side of the lot', () => {
    const ends = wires([-2.71, 0], [-2.69, 0], [0, -5], [0, 8], [15, 1], [14.6, 1]);
    expect(endsNearBorder(ends, lot, 0)).toEqual([1, 3, 4, 5]);
  });

  it('takes no wire that hangs out of reach from the ground', () => {
    const [end] = wires([0, 8]);
    if (end === undefined) throw new Error('a wire');
    expect(endsNearBorder([end], lot, 2.5)).toEqual([1]);
    expect(endsNearBorder([end], lot, 2.51)).toEqual([]);
  });
});
