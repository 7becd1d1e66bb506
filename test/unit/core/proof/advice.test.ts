import { describe, expect, it } from 'vitest';
import { type AdviceInput, advise } from '../../../../src/core/proof/advice.ts';
import type { ProgressStep } from '../../../../src/core/proof/progress-steps.ts';
import { UNKNOWN_QUANTITY } from '../../../../src/core/quantity-with-uncertainty.ts';

const quantity = (value: number, expandedUncertainty = 1) => ({
  value,
  expandedUncertainty,
  coverageFactor: 2,
});

function step(radials: number, resistanceOhm: number, resonanceHz = 7.1e6): ProgressStep {
  return {
    radials,
    wireM: radials * 6,
    time: null,
    visits: 1,
    repeated: true,
    resistanceAtResonanceOhm: quantity(resistanceOhm),
    soilCorrectionOhm: 0,
    resonanceHz: quantity(resonanceHz, 5e3),
    swr2BandwidthHz: quantity(6e5),
    gainDb: quantity(0),
    stepDb: UNKNOWN_QUANTITY,
    point: {
      laid: null,
      radials,
      lengthM: 6,
      resonanceHz,
      resistanceOhm,
      resistanceUncertaintyOhm: 0.5,
      reactanceUncertaintyOhm: 1,
    },
  };
}

/** Each step with its gain over the one before, from R known to 0.5 ohm. */
function inTurn(steps: readonly ProgressStep[]): ProgressStep[] {
  return steps.map((now, i) => {
    const [r0, r1] = [steps[i - 1]?.point?.resistanceOhm, now.point?.resistanceOhm];
    if (r0 === undefined || r1 === undefined) return now;
    const within = (20 / Math.LN10) * Math.hypot(0.5 / r0, 0.5 / r1);
    return { ...now, stepDb: quantity(10 * Math.log10(r0 / r1), within) };
  });
}

function adviseOn({ steps = [step(8, 52), step(16, 45)], ...more }: Partial<AdviceInput>) {
  return advise({
    steps: inTurn(steps),
    doubling: { valueDb: 0.4, standardUncertaintyDb: 0.05 },
    stepsToStop: 2,
    worthwhileDb: 0.25,
    lastStrength: null,
    ...more,
  });
}

describe('advise', () => {
  it('goes on while a doubling is worth more than the threshold', () => {
    expect(adviseOn({}).advice).toBe('go on');
    expect(adviseOn({}).why).toBe('the next doubling of the wire is worth about 0.40 dB, more than 0.25 dB');
  });

  it('stops only when nine chances in ten are for less: 1.28 standard uncertainties', () => {
    const at = (standardUncertaintyDb: number) =>
      adviseOn({ doubling: { valueDb: 0.18, standardUncertaintyDb } }).advice;
    expect(at(0.05)).toBe('stop');
    expect(at(0.07 / 1.29)).toBe('stop');
    expect(at(0.07 / 1.27)).toBe('go on');
  });

  it('wants another visit where the gain is known too poorly', () => {
    expect(adviseOn({ doubling: { valueDb: 0.2, standardUncertaintyDb: 0.2 } }).advice).toBe('measure again');
  });

  it('follows the site’s own threshold', () => {
    expect(adviseOn({ worthwhileDb: 0.5 }).advice).toBe('stop');
  });

  it('does not stop on fewer steps than the curve needs', () => {
    const little = { valueDb: 0.1, standardUncertaintyDb: 0.02 };
    expect(adviseOn({ doubling: little, stepsToStop: 4 }).advice).toBe('go on');
  });

  it('goes on below eight radials, and says why R is a poor guide there', () => {
    const found = adviseOn({
      steps: [step(4, 60)],
      doubling: { valueDb: 0.05, standardUncertaintyDb: 0.01 },
    });
    expect(found.advice).toBe('go on');
    expect(found.poorGuide.join()).toContain('below 8 radials R is a poor guide');
  });

  it('measures again where R rose, or the resonance moved by more than 2 %', () => {
    expect(adviseOn({ steps: [step(8, 45), step(16, 49)] }).advice).toBe('measure again');
    const moved = adviseOn({ steps: [step(8, 52, 6.9e6), step(16, 45)] });
    expect(moved.advice).toBe('measure again');
    expect(moved.poorGuide.join()).toContain('another radiation resistance');
  });

  it('calls the last step doubtful where R does not show it, and asks for a reversal', () => {
    expect(adviseOn({}).doubtful).toBe(false);
    expect(adviseOn({ steps: [step(8, 45.5), step(16, 45)] }).doubtful).toBe(true);
  });

  it('lets received strength outrank the curve', () => {
    const strength = {
      places: [],
      medianDb: 1,
      expandedUncertaintyDb: 0.4,
      intervalDb: [0.6, 1.4],
      spreadDb: 0.3,
      verdict: 'improved',
      notes: [],
    } as const;
    const little = { valueDb: 0.1, standardUncertaintyDb: 0.02 };
    expect(adviseOn({ doubling: little }).advice).toBe('stop');
    expect(adviseOn({ doubling: little, lastStrength: strength }).advice).toBe('go on');
    const hardly = { ...strength, medianDb: 0, intervalDb: [-0.1, 0.1] } as const;
    const stopped = adviseOn({ lastStrength: hardly });
    expect([stopped.advice, stopped.why]).toEqual(['stop', expect.stringContaining('at most 0.1 dB')]);
  });

  it('does not stop by the curve while a strength of few places speaks against it', () => {
    const places = ['bench', 'gate'].map((place) => ({
      place,
      differenceDb: 0.6,
      readingsBefore: 1,
      readingsAfter: 1,
    }));
    const few = { places, expandedUncertaintyDb: null, intervalDb: null, spreadDb: 0.1, notes: [] };
    const little = { valueDb: 0.1, standardUncertaintyDb: 0.02 };
    const lastStrength = (medianDb: number) => ({ ...few, medianDb, verdict: 'not shown' as const });
    const rose = adviseOn({ doubling: little, lastStrength: lastStrength(0.6) });
    expect([rose.advice, rose.why]).toEqual([
      'measure again',
      expect.stringMatching(
        /rose by 0\.6 dB at 2 places .* the next doubling of the wire would bring 0\.3 dB/u,
      ),
    ]);
    expect(adviseOn({ doubling: little, lastStrength: lastStrength(0.1) }).advice).toBe('stop');
    expect(adviseOn({ lastStrength: lastStrength(0.6) }).advice).toBe('go on');
  });

  it('does not stop on single shots', () => {
    const little = { valueDb: 0.1, standardUncertaintyDb: 0.02 };
    const single = adviseOn({ doubling: little, steps: [step(8, 52), { ...step(16, 45), repeated: false }] });
    expect([single.advice, single.why]).toEqual([
      'measure again',
      expect.stringContaining('single shots stand behind it'),
    ]);
  });

  it('has no curve from one number of radials', () => {
    expect(adviseOn({ steps: [step(12, 50)], doubling: null }).advice).toBe('measure again');
  });
});
