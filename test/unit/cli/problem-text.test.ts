import { describe, expect, it } from 'vitest';
import { problemText, refusalOf } from '../../../src/cli/problem-text.ts';
import type { Problem } from '../../../src/formats/problem.ts';

const PROBLEM: Problem = {
  severity: 'refused',
  code: 'c',
  message: 'may be one or the other',
  line: 3,
  column: 4,
  settledBy: { choices: [{ columns: 'MHz,|Z|,-' }, { delimiter: ';', decimal: 'comma' }], examples: false },
};

describe('a problem on the command line', () => {
  it('names the flags that choose a reading, so that each can be pasted', () => {
    expect(problemText(PROBLEM, 'a.csv')).toBe(
      "a.csv:3:4: may be one or the other; say --columns 'MHz,|Z|,-' or --delimiter semicolon --decimal comma",
    );
  });

  it('says where a flag is only an example, and which flag overrules what was assumed', () => {
    const settledBy = {
      choices: [{ referenceOhm: 50, port: 1, angle: 'rad', unit: 'MHz' }],
      examples: true,
    } as const;
    expect(problemText({ ...PROBLEM, settledBy }, 'a.csv')).toContain(
      '; say which, such as --unit MHz --angle rad --reference 50 --port-of-file 1',
    );
    expect(problemText({ ...PROBLEM, severity: 'note', settledBy }, 'a.csv')).toContain(
      'other (--unit says otherwise)',
    );
  });

  it('is an error with the first refusal and the count of the others; notes refuse nothing', () => {
    const refusal = refusalOf([{ ...PROBLEM, severity: 'note' }, PROBLEM, PROBLEM], 'a.csv');
    expect(refusal?.message).toMatch(/^may be one .*; say .* \(and 1 more in this file\)$/u);
    expect(refusal?.place).toEqual({ file: 'a.csv', line: 3, column: 4 });
    expect(refusalOf([{ ...PROBLEM, severity: 'note' }], 'a.csv')).toBeNull();
  });
});
