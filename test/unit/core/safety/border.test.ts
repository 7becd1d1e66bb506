import { describe, expect, it } from 'vitest';
import { baseToBorderM, wiresAtBorder } from '../../../../src/core/safety/border.ts';
import type { Lot, Point } from '../../../../src/core/site.ts';
import { safetySite } from '../../../support/safety-site.ts';

/** From the base at 4 m east, 6 m north of a corner; the lot is 20 m by 15 m. */
const wires = (...ends: Point[]) => ends.map((end, i) => ({ radial: i + 1, points: [[0, 0], end] as const }));
const lot = safetySite().lot as Lot;

describe('wiresAtBorder', () => {
  it('names the radials whose end is nearer to the border than people keep off, on every side of the lot', () => {
    const ends = wires([-2.71, 0], [-2.69, 0], [0, -5], [0, 8], [15, 1], [14.6, 1]);
    expect(wiresAtBorder(ends, lot, 1.3, false)).toEqual({ ends: [1, 3, 4, 5], beyond: [], passing: [] });
    expect(wiresAtBorder(ends, lot, 1.5, false).ends).toEqual([1, 2, 3, 4, 5, 6]);
  });

  it('names those that end beyond it, however far', () => {
    expect(wiresAtBorder(wires([-3, 0], [-4.1, 0], [-9, 0]), lot, 1.3, false)).toEqual({
      ends: [1, 2, 3],
      beyond: [2, 3],
      passing: [],
    });
  });

  it('names those that only pass near it where they can be touched all along, and those that cross a corner', () => {
    const along = [
      [0, 0],
      [-3, 0],
      [-3, 3],
      [2, 3],
    ] as const;
    // The lot without its north-east quarter: this wire leaves it for a stretch and comes back.
    const [outline, cut] = [[...lot.outline], [20, 9] as Point];
    outline.splice(2, 1, cut, [9, 9], [9, 15]);
    const bent = [{ radial: 7, points: along }];
    const crossing = [
      {
        radial: 8,
        points: [
          [2, 6],
          [13, 1],
        ] as const,
      },
    ];
    expect(wiresAtBorder(bent, lot, 1.3, false).passing).toEqual([]);
    expect(wiresAtBorder(bent, lot, 1.3, true)).toEqual({ ends: [], beyond: [], passing: [7] });
    expect(wiresAtBorder(crossing, lot, 0.1, true).passing).toEqual([]);
    expect(wiresAtBorder(crossing, { ...lot, outline }, 0.1, true).passing).toEqual([8]);
  });
});

describe('baseToBorderM', () => {
  it('is the distance to the nearest side', () => {
    expect(baseToBorderM(lot)).toBe(4);
  });
});
