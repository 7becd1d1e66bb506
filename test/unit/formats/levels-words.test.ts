import { describe, expect, it } from 'vitest';
import { levelStatus } from '../../../src/core/safety/level-status.ts';
import { findLimitSet } from '../../../src/core/safety/limits.ts';
import { levelsWords } from '../../../src/formats/levels-words.ts';
import type { SafetyAnswer } from '../../../src/formats/page-data.ts';

const told = (id: string): string =>
  levelsWords({ readOn: '2026-11-25', levels: levelStatus(findLimitSet(id, '')) } as SafetyAnswer['limits']);

describe('levelsWords', () => {
  it('gives a day of reading only to levels that were read', () => {
    expect(told('fcc-general')).toBe('All its levels were read in the source on 2026-11-25.');
    expect(told('eu-public')).toMatch(/^All its levels are recalled and were not read/u);
    expect(told('eu-public')).not.toContain('2026-11-25');
    expect(told('icnirp-2020-general')).toBe(
      'Read in the source on 2026-11-25: averaged levels, 0.1 to 400 MHz. Recalled, so check them before you rely on them: levels that hold at every moment, 0.003 to 10 MHz.',
    );
    expect(told('eu-workers')).toContain('averaged levels of the electric field, 3.59 to 400 MHz');
  });
});
