import { describe, expect, it } from 'vitest';
import { CAUSES, type CauseName } from '../../../../src/core/drift/cause.ts';
import { normalise, type Weighed } from '../../../../src/core/drift/posterior.ts';
import { PRIOR } from '../../../../src/core/drift/priors.ts';
import { expectClose } from '../../../support/expect-close.ts';

function weighed(cause: CauseName, probability: number, mean = 1, sd = 0.01): Weighed {
  const model = {
    cause,
    estimate: null,
    amplitudes: Float64Array.of(1),
    discrete: true,
    logPrior: () => 0,
    effect: () => ({ shift: { re: Float64Array.of(0), im: Float64Array.of(0) }, free: [] }),
  };
  return { model, logPosterior: Math.log(probability), amplitude: { mean, sd, fromZero: mean / sd } };
}

function probabilities(entries: readonly Weighed[], isLoadSeen = true, unlike = 0): Record<string, number> {
  const causes = normalise(entries, isLoadSeen, unlike);
  return Object.fromEntries(causes.map(({ cause, probability }) => [cause, probability]));
}

describe('normalise', () => {
  it('adds up the variants of a cause', () => {
    const told = probabilities([weighed('intermittent', 3), weighed('intermittent', 1), weighed('none', 4)]);
    expectClose(told['intermittent'] as number, 0.5, { absolute: 1e-9 });
  });

  it('takes the amplitudes of variants as a mixture, which is wider than either', () => {
    const entries = [weighed('lost-radials', 0.3, 4, 1), weighed('lost-radials', 0.1, 8, 1)];
    const amplitude = normalise([...entries, weighed('none', 0.6)], true, 0).find(
      ({ cause }) => cause === 'lost-radials',
    )?.amplitude;
    // 0.75 of 4 and 0.25 of 8, each ± 1: mean 5, variance 1 + 0.75·1 + 0.25·9.
    expectClose(amplitude?.mean as number, 5, { absolute: 1e-12 });
    expectClose(amplitude?.sd as number, 2, { absolute: 1e-12 });
  });

  it('gives to none what of a cause may as well be zero', () => {
    const told = probabilities([weighed('intermittent', 0.999, 0.49, 0.345), weighed('none', 0.001)]);
    // z = 0.49/0.345: exp(−z²/2) = 0.365
    expectClose(told['none'] as number, 0.365, { absolute: 0.002 });
  });

  it('keeps a moved instrument from being near certain when no load was swept', () => {
    const entries = [weighed('instrument', 0.999), weighed('none', 0.0005), weighed('series-joint', 0.0005)];
    expectClose(probabilities(entries)['instrument'] as number, 0.999, { absolute: 1e-9 });
    expectClose(probabilities(entries, false)['instrument'] as number, 0.9, { absolute: 1e-9 });
  });

  it('lets the prior stand for the part that may be like no model', () => {
    const entries = CAUSES.map((cause) => weighed(cause, cause === 'feedline' ? 1 : 1e-9));
    const told = probabilities(entries, true, 0.05);
    expectClose(told['feedline'] as number, 0.95 + 0.05 * PRIOR.feedline, { absolute: 1e-6 });
    expectClose(told['none'] as number, 0.05 * PRIOR.none, { absolute: 1e-6 });
  });

  it('has probabilities of sum one, likeliest first, whatever amplitudes are missing', () => {
    const entries = [weighed('lost-radials', 0.6, Number.NaN, Number.NaN), weighed('none', 0.4)];
    const causes = normalise(entries, true, 0);
    expect(causes.map(({ cause }) => cause)).toEqual(['lost-radials', 'none']);
    expectClose(
      causes.reduce((sum, { probability }) => sum + probability, 0),
      1,
      { absolute: 1e-12 },
    );
  });
});
