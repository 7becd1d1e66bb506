/**
 * Source: MIL-DTL-14072F, sec. 3.13, 3.13.1 and table VI, with the anodic indices in use for its groups, and an
 * allowance of 0.15 V in harsh, 0.25 V in normal indoor and 0.50 V in controlled surroundings. Status: published; for
 * hot-dip zinc and the split of the aluminium alloys, memory; the pairs are computed from the table.
 *
 * Tolerance: none; differences are whole millivolts.
 */
import { describe, expect, it } from 'vitest';
import { assessJoint } from '../../src/core/safety/joints.ts';

describe('MIL-DTL-14072F, table VI', () => {
  it.each([
    // Anodic index in V: published
    ['gold', 0],
    ['rhodium-plate', 0.05],
    ['silver', 0.15],
    ['nickel-copper', 0.15],
    ['nickel', 0.3],
    ['titanium', 0.3],
    ['copper', 0.35],
    ['low-brass', 0.35],
    ['silver-solder', 0.35],
    ['brass', 0.4],
    ['bronze', 0.4],
    ['high-brass', 0.45],
    ['stainless-18-8', 0.5],
    ['chromium-plate', 0.6],
    ['stainless-12', 0.6],
    ['tin-plate', 0.65],
    ['tin-lead-solder', 0.65],
    ['lead', 0.7],
    ['aluminium-2000', 0.75],
    ['steel', 0.85],
    ['zinc', 1.25],
    ['magnesium', 1.75],
    // Memory: sources differ, see the table of metals
    ['aluminium-6000', 0.9],
    ['aluminium-cast', 0.95],
    ['galvanised-steel', 1.2],
    ['beryllium', 1.85],
  ])('%s has an anodic index of %d V', (metal, index) => {
    const joint = assessJoint({ name: 'joint', metals: ['gold', metal], where: 'controlled' });
    expect(joint.differenceV).toBe(index);
  });

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
