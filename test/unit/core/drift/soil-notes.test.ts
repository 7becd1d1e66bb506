import { describe, expect, it } from 'vitest';
import type { Conditions } from '../../../../src/core/drift/conditions.ts';
import { soilEvidence } from '../../../../src/core/drift/soil-notes.ts';

const visit = (moisture: number | null, rainM: number | null = null): Conditions => ({
  moisture,
  temperature: null,
  rainM,
  seasonRad: 0,
});
const dry = [visit(0.17), visit(0.2)];
const told = (before: readonly Conditions[], after: readonly Conditions[]) => {
  const { logFactor, sentences } = soilEvidence(before, after);
  return { sign: Math.sign(logFactor['soil-moisture'] ?? 0), text: sentences[0]?.text };
};

describe('notes of the soil as evidence', () => {
  it('speak for another soil where moisture lies outside of that of the baseline, either way', () => {
    expect(told(dry, [visit(0.38)])).toEqual({
      sign: 1,
      text: 'soil moisture was noted at 38 %, against 17 to 20 % at the baseline visits',
    });
    expect(told(dry, [visit(0.1)]).sign).toBe(1);
  });

  it('speak against it where moisture is the same, and only tell it in between', () => {
    expect(told(dry, [visit(0.18)])).toEqual({
      sign: -1,
      text: 'against it: soil moisture was noted at 18 %, against 17 to 20 % at the baseline visits',
    });
    expect(told(dry, [visit(0.23)]).sign).toBe(0);
    expect(told(dry, [visit(0.23)]).text).toBeDefined();
  });

  it('take rain where moisture was not noted on both sides', () => {
    const rain = [visit(null, 0), visit(null, 0.004)];
    expect(told(rain, [visit(0.3, 0.025)])).toEqual({
      sign: 1,
      text: '25 mm of rain was noted in the week before',
    });
    expect(told([visit(null, 0.02)], [visit(null, 0.025)])).toEqual({ sign: 0, text: undefined });
  });

  it('say nothing where nothing was noted', () => {
    expect(told([visit(null)], [visit(null)])).toEqual({ sign: 0, text: undefined });
  });
});
