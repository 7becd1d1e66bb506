import { describe, expect, it } from 'vitest';
import { pairTexts } from '../../../../src/cli/page/pair-texts.ts';

const paired = (one: unknown, other: unknown): [string, string][] => {
  const pairs = new Map<string, string>();
  pairTexts(one, other, pairs);
  return [...pairs];
};

describe('the texts of one document in two systems of units', () => {
  it('are paired where they differ, however deep they stand', () => {
    expect(
      paired(
        { work: ['dig', 'cut at 1.0 m'], wireM: 3, deep: { why: '2 m' } },
        { work: ['dig', 'cut at 3.3 ft'], wireM: 3, deep: { why: '6.6 ft' } },
      ),
    ).toEqual([
      ['cut at 1.0 m', 'cut at 3.3 ft'],
      ['2 m', '6.6 ft'],
    ]);
  });

  it('are left alone where one list has more than the other, and where there is no other', () => {
    expect(paired({ notes: ['1 m', '2 m'] }, { notes: ['3.3 ft'] })).toEqual([]);
    expect(paired({ notes: ['1 m'] }, null)).toEqual([]);
  });
});
