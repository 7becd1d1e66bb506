import { describe, expect, it } from 'vitest';
import type { Point } from '../../../src/core/site.ts';
import type { PageWire } from '../../../src/formats/page-data.ts';
import { widestGap } from '../../../web/model/field-words.ts';
import { expectClose } from '../../support/expect-close.ts';

const wire = (...points: Point[]): PageWire => ({
  number: 1,
  lengthM: 6,
  since: null,
  points: [[0, 0], ...points],
  state: 'laid',
  age: 0,
});

describe('widestGap', () => {
  it('is the angle between neighbours as they leave the base, whichever way they bend on', () => {
    const straight = [wire([0, 5]), wire([5, 0]), wire([0, -5]), wire([-5, 0])];
    // The one to the east bends north along a border, so that its end lies at 45°.
    const bent = [wire([0, 5]), wire([5, 0], [5, 5]), wire([0, -5]), wire([-5, 0])];
    for (const wires of [straight, bent])
      expectClose(widestGap(wires)?.widthDeg ?? 0, 90, { absolute: 1e-9 });
    const gap = widestGap(straight.slice(0, 3));
    expectClose(gap?.widthDeg ?? 0, 180, { absolute: 1e-9 });
    expectClose(gap?.middleDeg ?? 0, 270, { absolute: 1e-9 });
  });

  it('cannot be told of fewer than two wires', () => {
    expect(widestGap([wire([0, 5])])).toBeNull();
  });
});
