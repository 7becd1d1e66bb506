import { describe, expect, it } from 'vitest';
import { createRandomSource } from '../../../../src/core/proof/random.ts';
import { compareStrength, type StrengthReading } from '../../../../src/core/proof/strength.ts';
import { expectClose } from '../../../support/expect-close.ts';

function levels(values: readonly number[], powerW: number | null = null): StrengthReading[] {
  return values.map((levelDb, i) => ({ place: `place ${i + 1}`, levelDb, powerW }));
}

// Places differ by far more than the change: only pairing shows it. The fifth reading is off.
const BEFORE = [-30, -42, -55, -38, -61, -47, -35];
const GAINS = [1.1, 0.9, 1.3, 1.0, -6, 1.2, 0.8];
const AFTER = BEFORE.map((level, i) => level + (GAINS[i] as number));

describe('compareStrength', () => {
  it('pairs by place, and one odd place does no harm to the median', () => {
    const found = compareStrength(levels(BEFORE), levels(AFTER));
    expectClose(found.medianDb, 1, { absolute: 1e-9 });
    expectClose(found.spreadDb, 1.4826 * 0.2, { absolute: 1e-9 });
  });

  it('shows what seven of seven places say, and not what they do not', () => {
    const all = compareStrength(levels(BEFORE), levels(BEFORE.map((level, i) => level + 1 + 0.1 * (i - 3))));
    expect(all.verdict).toBe('improved');
    expect(all.intervalDb?.[0]).toBeGreaterThan(0.5);
    const lower = compareStrength(levels(AFTER), levels(AFTER.map((level, i) => level - 2 - 0.1 * i)));
    expect(lower.verdict).toBe('worse');
    const mixed = compareStrength(levels(BEFORE), levels(BEFORE.map((level, i) => level + (-1) ** i)));
    expect(mixed.verdict).toBe('not shown');
  });

  it('gives a median but no verdict for fewer than six places', () => {
    const found = compareStrength(levels(BEFORE.slice(0, 5)), levels(AFTER.slice(0, 5)));
    expect([found.verdict, found.intervalDb]).toEqual(['not shown', null]);
    expect(found.medianDb).not.toBeNull();
    expect(found.notes.join()).toContain('a verdict needs 6');
  });

  it('takes levels at one watt where powers are noted, and leaves out a place where some are not', () => {
    const found = compareStrength(levels(BEFORE, 100), levels(BEFORE, 25));
    expectClose(found.medianDb, 10 * Math.log10(4), { absolute: 1e-9 });
    const [first, ...rest] = levels(BEFORE, 25);
    const halfNoted = compareStrength(levels(BEFORE, 100), [
      { ...first, powerW: null } as StrengthReading,
      ...rest,
    ]);
    expect(halfNoted.places.map(({ place }) => place)).not.toContain('place 1');
  });

  it('says nothing where no place was read twice', () => {
    const found = compareStrength([{ place: 'bench', levelDb: -30, powerW: null }], []);
    expect([found.medianDb, found.verdict, found.places]).toEqual([null, 'not shown', []]);
  });

  it('claims a change where there is none in about one of twenty', () => {
    const random = createRandomSource(8);
    const zero = Array.from({ length: 10 }, () => 0);
    let claimed = 0;
    for (let i = 0; i < 150; i++) {
      const found = compareStrength(levels(zero), levels(zero.map(() => random.normal())));
      if (found.verdict !== 'not shown') claimed++;
    }
    // At most 5 % expected; 150 trials may show 14 by chance once in a hundred times.
    expect(claimed).toBeLessThan(14);
  });
});
