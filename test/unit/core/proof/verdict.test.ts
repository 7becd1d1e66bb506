import { describe, expect, it } from 'vitest';
import type { FigureDifference } from '../../../../src/core/proof/pair.ts';
import { directionOf, judgeTogether } from '../../../../src/core/proof/verdict.ts';

const CASE = { kind: 'quarter-wave', series: true, plane: 'feedpoint' } as const;

function difference(value: number, probability: number): FigureDifference {
  const quantity = { value, expandedUncertainty: 1, coverageFactor: 2 };
  return {
    before: quantity,
    after: quantity,
    difference: quantity,
    standardUncertainty: 0.5,
    degreesOfFreedom: 60,
    probability,
    method: 'first order',
  };
}

const resistance = directionOf('resistanceAtResonanceOhm', CASE);

describe('directionOf', () => {
  it('takes less R at a series X = 0 of the feed point for better, and at no other', () => {
    expect(resistance.sign).toBe(-1);
    expect(directionOf('resistanceAtResonanceOhm', { ...CASE, series: false }).sign).toBe(0);
    expect(directionOf('resistanceAtResonanceOhm', { ...CASE, kind: 'half-wave' }).sign).toBe(0);
    expect(directionOf('resistanceAtResonanceOhm', { ...CASE, plane: 'shack' }).sign).toBe(0);
    expect(directionOf('resistanceAtResonanceOhm', { ...CASE, kind: null }).sign).toBe(-1);
  });

  it('says of every SWR figure that it is no proof', () => {
    for (const measure of ['minSwr', 'worstSwr', 'meanReturnLossDb'] as const) {
      expect(directionOf(measure, CASE).meaning).toContain('no proof');
    }
  });
});

describe('judgeTogether', () => {
  const one = (value: number, probability: number) => ({
    difference: difference(value, probability),
    direction: resistance,
    claimable: true,
  });

  it('judges by sign and by Holm: 0.03 alone is shown, beside four others it is not', () => {
    expect(judgeTogether([one(-3, 0.03)])[0]?.verdict).toBe('improved');
    expect(judgeTogether([one(3, 0.03)])[0]?.verdict).toBe('worse');
    const many = judgeTogether([one(-3, 0.03), one(1, 0.5), one(1, 0.6), one(1, 0.7), one(1, 0.8)]);
    expect(many[0]).toEqual({ verdict: 'not shown', probability: 0.15 });
  });

  it('tests neither what has no better side nor what cannot be claimed', () => {
    const moved = { ...one(3, 0), direction: directionOf('resonanceHz', CASE) };
    const single = { ...one(-3, 0), claimable: false };
    expect(judgeTogether([moved, single, { ...one(0, 0), difference: null }])).toEqual(
      Array.from({ length: 3 }, () => ({ verdict: 'not shown', probability: null })),
    );
  });
});
