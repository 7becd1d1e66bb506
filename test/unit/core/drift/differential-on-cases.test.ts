import { describe, expect, it } from 'vitest';
import { scoreVariant } from '../../../../bench/drift-score.ts';
import { VARIANTS, type Variant } from '../../../support/drift/variants.ts';

/** Seeds that were never looked at while the method was made, and none of the benchmark's. */
const HELD_OUT = 7_000_000;
const CASES = 64;
const FEWER_CASES = 40;

const variant = (name: string): Variant => VARIANTS.find((entry) => entry.name === name) as Variant;

/**
 * A small run of what the benchmark does with hundreds of cases. The limits are the goals, 92 % and 96 % of medium and
 * large changes, less what chance makes of so few cases (two standard deviations of a binomial share).
 */
describe('on generated antennas with physics that no model here holds', () => {
  it('the right cause comes first, sizes are right and odds are honest', () => {
    const score = scoreVariant(variant('usual'), HELD_OUT, CASES);
    expect(score.rightOverall).toBeGreaterThan(0.88);
    expect(score.rightMediumAndLarge).toBeGreaterThan(0.9);
    expect(score.calibrationError).toBeLessThan(0.1);
    expect(score.jointError).toBeLessThan(1);
    expect(score.lengthError).toBeLessThan(0.2);
  });

  it('unchanged antennas are seldom suspected, even hard ones', () => {
    const { confusion } = scoreVariant(variant('gaps'), HELD_OUT, FEWER_CASES);
    const { none, ...suspected } = confusion.none;
    const alarms = Object.values(suspected).reduce((sum, count) => sum + count, 0);
    expect(none).toBeGreaterThan(2);
    expect(alarms).toBeLessThanOrEqual(1);
  });

  it('bands with gaps between them are read as well as one band', () => {
    const score = scoreVariant(variant('segments'), HELD_OUT, FEWER_CASES);
    expect(score.rightOverall).toBeGreaterThan(0.83);
    expect(score.rightMediumAndLarge).toBeGreaterThan(0.87);
  });

  it('a line that is not quite the one of the site hides little', () => {
    const score = scoreVariant(variant('shack'), HELD_OUT, FEWER_CASES);
    expect(score.rightOverall).toBeGreaterThan(0.83);
    expect(score.rightMediumAndLarge).toBeGreaterThan(0.87);
    expect(score.calibrationError).toBeLessThan(0.12);
  });

  it('without a site file most are still told', () => {
    expect(scoreVariant(variant('no site'), HELD_OUT, FEWER_CASES).rightOverall).toBeGreaterThan(0.75);
  });
});
