import { describe, expect, it } from 'vitest';
import {
  type Box,
  overlap,
  type PlacedNumber,
  placeEndNumbers,
  type WireOnDrawing,
} from '../../../../src/core/layout/end-numbers.ts';

const PAPER: Box = { left: 0, top: 0, right: 600, bottom: 600 };

/** Wires that fan out evenly from the middle, numbered from `first`. */
function fan(count: number, lengthPx: number, first = 1): WireOnDrawing[] {
  return Array.from({ length: count }, (_, i) => {
    const angle = (2 * Math.PI * i) / count;
    return {
      number: first + i,
      points: [
        [300, 300],
        [300 + lengthPx * Math.sin(angle), 300 - lengthPx * Math.cos(angle)],
      ],
    };
  });
}

function boxOf({ number, centre: [x, y], sizePx }: PlacedNumber): Box {
  const half = [0.3 * sizePx * `${number}`.length, 0.36 * sizePx] as const;
  return { left: x - half[0], right: x + half[0], top: y - half[1], bottom: y + half[1] };
}

function expectNoneOverlaps(placed: readonly PlacedNumber[], taken: readonly Box[] = []): void {
  const boxes = placed.map(boxOf);
  boxes.forEach((box, i) => {
    for (const other of [...boxes.slice(i + 1), ...taken]) expect(overlap(box, other)).toBe(false);
  });
}

describe('numbers at the ends of wires', () => {
  it('stand at every end where they have room, each near its own', () => {
    const wires = fan(60, 250, 93);
    const placed = placeEndNumbers(wires, [], PAPER);
    expect(placed.map(({ number }) => number)).toEqual(wires.map(({ number }) => number));
    expectNoneOverlaps(placed);
    placed.forEach(({ centre: [x, y] }, i) => {
      const [endX = 0, endY = 0] = wires[i]?.points.at(-1) ?? [];
      expect(Math.hypot(x - endX, y - endY)).toBeLessThan(22);
    });
  });

  it('are those of every fifth wire where the others would have no room', () => {
    const placed = placeEndNumbers(fan(60, 30), [], PAPER);
    expect(placed.map(({ number }) => number)).toEqual([5, 10, 15, 20, 25, 30, 35, 40, 45, 50, 55, 60]);
    expectNoneOverlaps(placed);
  });

  it('keep off what is written already, and on the paper', () => {
    const taken = [{ left: 200, top: 20, right: 400, bottom: 60 }];
    const placed = placeEndNumbers(fan(16, 270), taken, PAPER);
    expect(placed).toHaveLength(16);
    expectNoneOverlaps(placed, taken);
    for (const box of placed.map(boxOf)) {
      expect(Math.min(box.left, box.top)).toBeGreaterThanOrEqual(0);
      expect(Math.max(box.right, box.bottom)).toBeLessThanOrEqual(600);
    }
  });

  it('are left out for wires that bear none, which they keep off all the same', () => {
    const [bare, named] = [
      {
        number: null,
        points: [
          [300, 300],
          [300, 100],
        ] as const,
      },
      {
        number: 7,
        points: [
          [300, 300],
          [300, 120],
        ] as const,
      },
    ];
    const [placed, ...more] = placeEndNumbers([bare, named], [], PAPER);
    expect(more).toEqual([]);
    expect(placed?.number).toBe(7);
    const { left, right } = boxOf(placed as PlacedNumber);
    expect(left > 300 || right < 300).toBe(true);
  });
});
