import { describe, expect, it } from 'vitest';
import type { OverallVerdict } from '../../../../src/core/proof/overall.ts';
import { strengthWords } from '../../../../src/core/proof/overall-words.ts';
import { compareStrength } from '../../../../src/core/proof/strength.ts';
import type { Verdict } from '../../../../src/core/proof/verdict.ts';

const PLACES = ['bench', 'gate', 'lane', 'hill', 'quay', 'barn', 'mill'];

/** Levels that rose by so much, scattered from place to place by the spread. */
function strengthOf(riseDb: number, spreadDb: number, places = PLACES) {
  const levels = (rise: number) =>
    places.map((place, i) => ({ place, levelDb: -30 - 3 * i + rise, powerW: 100 }));
  const after = levels(riseDb).map((level, i) => ({ ...level, levelDb: level.levelDb + spreadDb * (i - 3) }));
  return compareStrength(levels(0), after);
}

function overallOf(verdict: Verdict, resistanceVerdict: Verdict, resistanceGainDb = 0.9): OverallVerdict {
  const told = verdict !== 'not shown' && resistanceVerdict !== 'not shown';
  return {
    verdict,
    basis: 'received strength',
    resistanceVerdict,
    agree: told ? verdict === resistanceVerdict : null,
    resistanceGainDb,
    resistanceGainUncertaintyDb: 0.2,
  };
}

describe('strengthWords', () => {
  it('lets the resistance decide while too few places were read', () => {
    const words = strengthWords(strengthOf(2, 0.1, PLACES.slice(0, 2)), overallOf('improved', 'improved'));
    expect(words).toContain('at 2 places');
    expect(words).toContain('too few for a verdict, which takes 6');
    expect(words).toContain(
      'the resistance decides: improved (+0.90 ± 0.20 dB by its ratio, a lower estimate).',
    );
    expect(words).not.toContain('not shown');
  });

  it('says what each can show where strength shows nothing and resistance says improved', () => {
    const wide = strengthWords(strengthOf(0.3, 0.8), overallOf('not shown', 'improved'));
    expect(wide).toMatch(/^Received strength decides: not shown, /u);
    expect(wide).toContain('The resistance by itself says improved');
    expect(wide).toContain('both may be right, and more places would tell');
    const narrow = strengthWords(strengthOf(0, 0.05), overallOf('not shown', 'improved'));
    expect(narrow).toContain('R moved by something other than ground loss');
  });

  it('says whether the two agree', () => {
    const rose = strengthOf(2, 0.1);
    expect(strengthWords(rose, overallOf('improved', 'improved'))).toContain('says the same');
    expect(strengthWords(rose, overallOf('improved', 'worse'))).toContain('the two disagree');
    expect(strengthWords(rose, overallOf('improved', 'not shown'))).toContain('no contradiction');
  });

  it('is silent where no place was read on both sides', () => {
    expect(strengthWords(null, overallOf('improved', 'improved'))).toBe('');
    expect(strengthWords(compareStrength([], []), overallOf('improved', 'improved'))).toBe('');
  });
});
