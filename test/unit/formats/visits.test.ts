import { describe, expect, it } from 'vitest';
import { groupIntoVisits } from '../../../src/formats/visits.ts';

const grouped = (...names: string[]) => groupIntoVisits(names).map((group) => group.names);

describe('grouping loose files into visits', () => {
  it('takes names that differ only in a trailing shot number as shots of one visit, in their order', () => {
    expect(groupIntoVisits(['visit1-shot2.csv', 'visit2-shot1.csv', 'visit1-shot1.csv'])).toEqual([
      { label: 'visit1', names: ['visit1-shot1.csv', 'visit1-shot2.csv'] },
      { label: 'visit2', names: ['visit2-shot1.csv'] },
    ]);
    expect(grouped('a-shot10.csv', 'a-shot9.csv')).toEqual([['a-shot9.csv', 'a-shot10.csv']]);
  });

  it('knows the shot number in any case and with any separator', () => {
    for (const ending of ['shot1', 'SHOT1', '_Shot_1', ' shot 1', '.shot-01', '-shot#1']) {
      const other = ending.replace('1', '2');
      expect(
        grouped(
          `mast${/^s/iu.test(ending) ? '-' : ''}${ending}.s1p`,
          `mast${/^s/iu.test(ending) ? '-' : ''}${other}.s1p`,
        ),
      ).toHaveLength(1);
    }
    expect(grouped('visit1shot1.csv', 'visit1shot2.csv')).toHaveLength(1);
  });

  it('keeps a bare number for what it is: a visit or a date', () => {
    expect(grouped('visit1.csv', 'visit2.csv')).toHaveLength(2);
    expect(grouped('2026-03-01.csv', '2026-03-02.csv')).toHaveLength(2);
    expect(grouped('moonshot1.csv', 'moonshot2.csv')).toHaveLength(2);
    expect(grouped('shot1-visit1.csv', 'shot1-visit2.csv')).toHaveLength(2);
  });

  it('never joins what differs in folder, extension or anything else', () => {
    expect(grouped('a/v-shot1.csv', 'b/v-shot2.csv')).toHaveLength(2);
    expect(grouped('v-shot1.csv', 'v-shot2.s1p')).toHaveLength(2);
    expect(grouped('north-shot1.csv', 'south-shot1.csv')).toHaveLength(2);
  });

  it('names two visits apart even when their short names are the same', () => {
    const labels = groupIntoVisits(['a/v-shot1.csv', 'b/v-shot1.csv']).map(({ label }) => label);
    expect(labels).toEqual(['a/v-shot1.csv', 'b/v-shot1.csv']);
  });

  it('takes files that are called after their shot alone as one visit', () => {
    expect(groupIntoVisits(['d/shot1.csv', 'd/shot2.csv'])).toEqual([
      { label: 'shots', names: ['d/shot1.csv', 'd/shot2.csv'] },
    ]);
  });

  it('takes standard input as a visit', () => {
    expect(groupIntoVisits(['-'])).toEqual([{ label: '-', names: ['-'] }]);
  });
});
