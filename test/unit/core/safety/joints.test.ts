import { describe, expect, it } from 'vitest';
import { assessJoint } from '../../../../src/core/safety/joints.ts';
import { findMetal } from '../../../../src/core/safety/metals.ts';
import type { SiteJoint } from '../../../../src/core/site.ts';

function joint(metals: string[], where: SiteJoint['where'] = 'outdoor'): SiteJoint {
  return { name: 'plate to strap', metals, where };
}

describe('assessJoint', () => {
  it('names the pair of neighbours with the largest difference, and which of them corrodes', () => {
    const found = assessJoint(joint(['copper', 'stainless-18-8', 'aluminium-6000']));
    expect(found.differenceV).toBe(0.4);
    expect(found.worst).toEqual({ anode: 'aluminium-6000', cathode: 'stainless-18-8' });
    expect(found.verdict).toBe('corrodes');
  });

  it('tells what a bolt or water would bridge apart from what touches', () => {
    const found = assessJoint(joint(['copper', 'stainless-18-8', 'aluminium-6000']));
    expect(found.bridgedDifferenceV).toBe(0.55);
    expect(found.advice.join(' ')).toContain('bridges the stack');
  });

  it('takes the order of the metals as the order of the stack', () => {
    expect(assessJoint(joint(['stainless-18-8', 'copper', 'aluminium-6000'])).differenceV).toBe(0.55);
  });

  it('allows more indoors than outdoors, and more yet where the air is controlled', () => {
    const verdicts = (['outdoor', 'indoor', 'controlled'] as const).map(
      (where) => assessJoint(joint(['copper', 'steel'], where)).verdict,
    );
    expect(verdicts).toEqual(['corrodes', 'corrodes', 'compatible']);
  });

  it('says that stainless steel between copper and aluminium is better, not perfect', () => {
    expect(assessJoint(joint(['copper', 'aluminium-6000'])).advice.join(' ')).toMatch(
      /stainless.*better.*not perfect/u,
    );
  });

  it('warns against a large cathode on a small anode', () => {
    expect(assessJoint(joint(['copper', 'galvanised-steel'])).advice.join(' ')).toContain(
      'Keep the copper area small against the galvanised-steel',
    );
  });

  it('proposes to look more often the farther the pair is over its allowance', () => {
    const months = (['copper', 'stainless-18-8', 'tin-plate', 'galvanised-steel'] as const).map(
      (metal) => assessJoint(joint(['copper', metal])).inspectionMonths,
    );
    expect(months).toEqual([12, 12, 6, 3]);
  });

  it('finds nothing to corrode in a joint of one metal', () => {
    for (const metals of [['copper'], ['copper', 'copper']]) {
      expect(assessJoint(joint(metals))).toMatchObject({
        differenceV: 0,
        verdict: 'compatible',
        worst: null,
        advice: [],
      });
    }
  });

  it('refuses an empty joint and an unknown metal, by the field and with the near miss', () => {
    expect(() => assessJoint(joint([]))).toThrow(/at least one metal/u);
    expect(() => assessJoint(joint(['cooper']), 'joints[0]')).toThrow(/got "cooper", did you mean "copper"/u);
    try {
      assessJoint(joint(['copper', 'cheese']), 'joints[3]');
      expect.unreachable();
    } catch (error) {
      expect(error).toMatchObject({ code: 'metal-unknown', place: { field: 'joints[3].metals[1]' } });
    }
  });
});

describe('findMetal', () => {
  it.each([
    ['Stainless Steel', 'stainless-18-8'],
    ['aluminum', 'aluminium-6000'],
    ['galvanized_steel', 'galvanised-steel'],
    ['tinned copper', 'tin-plate'],
    ['copper-clad-steel', 'copper'],
  ])('takes %s as %s', (name, metal) => {
    expect(findMetal(name).metal).toBe(metal);
  });
});
