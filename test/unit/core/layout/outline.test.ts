import { describe, expect, it } from 'vitest';
import { isInside, isOnBorder, meanWidthM, outlineProblem } from '../../../../src/core/layout/outline.ts';
import type { Point } from '../../../../src/core/site.ts';
import { expectClose } from '../../../support/expect-close.ts';

const SQUARE: Point[] = [
  [0, 0],
  [9, 0],
  [9, 9],
  [0, 9],
];

describe('an outline', () => {
  it('that goes once around is well, whichever way and whatever corner stands twice', () => {
    expect(outlineProblem(SQUARE)).toBeNull();
    expect(outlineProblem([...SQUARE].reverse())).toBeNull();
    expect(outlineProblem([[0, 0], ...SQUARE, [0, 9], [0, 0]])).toBeNull();
  });

  it('has a border, and a width on the mean that is that of a strip', () => {
    const strip: Point[] = [
      [0, 0],
      [40, 0],
      [40, 0.4],
      [0, 0.4],
    ];
    expectClose(meanWidthM(strip), 0.4, { relative: 0.02 });
    expect(isOnBorder([9, 4], SQUARE)).toBe(true);
    expect(isOnBorder([8.99, 4], SQUARE)).toBe(false);
    expect(isOnBorder([9, 10], SQUARE)).toBe(false);
  });

  it('may have corners in line', () => {
    expect(outlineProblem([[0, 0], [4, 0], ...SQUARE.slice(1)])).toBeNull();
  });

  it.each<[string, Point[], string]>([
    [
      'that crosses itself names both sides',
      [
        [0, 0],
        [9, 9],
        [9, 0],
        [0, 9],
      ],
      'the side from corner 1 to 2 crosses the side from corner 3 to 4: the corners must go once around',
    ],
    [
      'that crosses itself at its last side names that',
      [
        [0, 0],
        [9, 0],
        [9, 9],
        [4, -5],
      ],
      'the side from corner 1 to 2 crosses the side from corner 3 to 4: the corners must go once around',
    ],
    [
      'that touches itself names where',
      [
        [0, 0],
        [9, 0],
        [9, 9],
        [5, 0],
        [0, 9],
      ],
      'the side from corner 1 to 2 touches the side from corner 3 to 4: the corners must go once around',
    ],
    [
      'that runs back over itself says so',
      [
        [0, 0],
        [9, 0],
        [5, 0],
      ],
      'the side from corner 2 to 3 runs back over the side from corner 1 to 2',
    ],
    [
      'of two corners is none',
      [
        [0, 0],
        [9, 0],
        [9, 0],
      ],
      'needs at least 3 different corners, got 2',
    ],
  ])('%s', (_, corners, message) => {
    expect(outlineProblem(corners)).toBe(message);
  });

  it('holds what lies inside it', () => {
    expect(isInside([4, 4], SQUARE)).toBe(true);
    expect(isInside([10, 4], SQUARE)).toBe(false);
  });
});
