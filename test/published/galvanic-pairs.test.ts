/**
 * Source: MIL-DTL-14072F, sec. 3.13, 3.13.1 and table VI, with the anodic indices in use for its groups, and an
 * allowance of 0.15 V in harsh, 0.25 V in normal indoor and 0.50 V in controlled surroundings: published, but for
 * hot-dip zinc and the split of the aluminium alloys, memory. The pairs are computed from the table.
 * Differences are whole millivolts, so there is no tolerance.
 */
import { describe, expect, it } from 'vitest';
import { assessJoint } from '../../src/core/safety/joints.ts';

describe('MIL-DTL-14072F, table VI', () => {
  it.each([
    ['copper', 'galvanised-steel', 0.85, 'galvanised-steel', 'corrodes', 'corrodes'],
    ['copper', 'stainless-18-8', 0.15, 'stainless-18-8', 'compatible', 'compatible'],
    ['copper', 'tin-plate', 0.3, 'tin-plate', 'corrodes', 'corrodes'],
    ['brass', 'stainless-18-8', 0.1, 'stainless-18-8', 'compatible', 'compatible'],
    ['aluminium-6000', 'stainless-18-8', 0.4, 'aluminium-6000', 'corrodes', 'corrodes'],
    ['aluminium-6000', 'galvanised-steel', 0.3, 'galvanised-steel', 'corrodes', 'corrodes'],
    ['tin-lead-solder', 'copper', 0.3, 'tin-lead-solder', 'corrodes', 'corrodes'],
    ['silver', 'brass', 0.25, 'brass', 'corrodes', 'compatible'],
    ['gold', 'copper', 0.35, 'copper', 'corrodes', 'corrodes'],
  ])('%s on %s: %d V, the %s is the anode', (a, b, differenceV, anode, outdoor, indoor) => {
    const at = (where: 'outdoor' | 'indoor') => assessJoint({ name: 'joint', metals: [a, b], where });
    expect(at('outdoor').differenceV).toBe(differenceV);
    expect(at('outdoor').worst?.anode).toBe(anode);
    expect(at('outdoor').verdict).toBe(outdoor);
    expect(at('indoor').verdict).toBe(indoor);
  });

  it('0.50 V − 0.35 V is within 0.15 V, which it is not in binary fractions', () => {
    expect(0.5 - 0.35 <= 0.15).toBe(false);
    const joint = assessJoint({ name: 'joint', metals: ['stainless-18-8', 'copper'], where: 'outdoor' });
    expect(joint.verdict).toBe('compatible');
  });
});
