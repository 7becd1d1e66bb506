import { describe, expect, it } from 'vitest';
import { mostAlike } from '../../../../src/core/drift/most-alike.ts';

const member = (moisture: number | null, seasonRad = 0) => ({
  conditions: { moisture, temperature: null, rainM: null, seasonRad },
});

describe('the most alike', () => {
  it('are the nearest in what was logged, in the order given', () => {
    const members = [member(0.1), member(0.3), member(0.2), member(0.31)];
    expect(mostAlike(members, member(0.3).conditions, 2)).toEqual([members[1], members[3]]);
  });

  it('are the later of equals, and all where there are no more', () => {
    const members = [member(0.3), member(null), member(0.3)];
    expect(mostAlike(members, member(0.3).conditions, 2)).toEqual([members[1], members[2]]);
    expect(mostAlike(members, member(0.3).conditions, 3)).toEqual(members);
  });

  it('are of the same season', () => {
    const members = [member(null, 0), member(null, Math.PI), member(null, 2 * Math.PI)];
    expect(mostAlike(members, member(null, 4 * Math.PI).conditions, 2)).toEqual([members[0], members[2]]);
  });
});
