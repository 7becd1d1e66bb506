import { describe, expect, it } from 'vitest';
import { describeProblem, PROBLEMS_PER_CODE, ProblemList } from '../../../src/formats/problem.ts';

describe('a list of problems', () => {
  it('spells out the first of a kind and counts the rest', () => {
    const problems = new ProblemList();
    for (let line = 1; line <= PROBLEMS_PER_CODE + 5; line++) problems.note('gap', 'a gap', line);
    problems.refuse('other', 'another', 3, 4);
    const list = problems.list();
    expect(list).toHaveLength(PROBLEMS_PER_CODE + 2);
    expect(list.at(-1)).toEqual({
      severity: 'note',
      code: 'gap',
      message: 'and 5 more of this kind, the last in this line',
      line: PROBLEMS_PER_CODE + 5,
      column: null,
      settledBy: null,
    });
    expect(problems.anyRefused).toBe(true);
  });

  it('is described with file, line and column as far as known', () => {
    const problem = {
      severity: 'note',
      code: 'c',
      message: 'm',
      line: 3,
      column: 4,
      settledBy: null,
    } as const;
    expect(describeProblem(problem, 'a.csv')).toBe('a.csv:3:4: m');
    expect(describeProblem({ ...problem, column: null }, 'a.csv')).toBe('a.csv:3: m');
    expect(describeProblem({ ...problem, line: null, column: null }, 'a.csv')).toBe('a.csv: m');
  });
});
