import fc from 'fast-check';
import { describe, it } from 'vitest';
import { feedLineOf, throughLine } from '../../src/core/sweep/feed-line.ts';
import { impedanceToReflection, reflectionToImpedance } from '../../src/core/sweep/reflection.ts';
import { findResonances } from '../../src/core/sweep/resonance.ts';
import { createSweep } from '../../src/core/sweep/sweep.ts';
import { bestSwr, swrDips } from '../../src/core/sweep/swr-summary.ts';
import { expectClose } from '../support/expect-close.ts';

const SEED = { seed: 20261125, numRuns: 500 };
const resistance = fc.double({ min: 0.01, max: 5000, noNaN: true });
const reactance = fc.double({ min: -5000, max: 5000, noNaN: true });
const reference = fc.double({ min: 5, max: 600, noNaN: true });

describe('there and back again', () => {
  it('Z → Γ → Z', () => {
    fc.assert(
      fc.property(resistance, reactance, reference, (re, im, r0) => {
        const reflection = impedanceToReflection({ re, im }, r0);
        const back = reflection && reflectionToImpedance(reflection, r0);
        // Near Γ = 1 the way back divides by a small difference: the error grows with |Z|²/R0.
        const tolerance = { absolute: 1e-13 * (r0 + (re * re + im * im) / r0) };
        expectClose(back?.re, re, tolerance);
        expectClose(back?.im, im, tolerance);
      }),
      SEED,
    );
  });

  it('shack → feed point → shack', () => {
    const line = feedLineOf({
      type: 'RG-58',
      lengthM: 23,
      velocityFactor: null,
      impedanceOhm: null,
      loss: [],
    });
    fc.assert(
      fc.property(
        fc.double({ min: 5, max: 500, noNaN: true }),
        fc.double({ min: -500, max: 500, noNaN: true }),
        fc.double({ min: 1e6, max: 50e6, noNaN: true }),
        (re, im, frequencyHz) => {
          const far = throughLine({ re, im }, line, frequencyHz, 'feedpoint');
          const back = far && throughLine(far, line, frequencyHz, 'shack');
          expectClose(back?.re, re, { absolute: 1e-8 });
          expectClose(back?.im, im, { absolute: 1e-8 });
        },
      ),
      SEED,
    );
  });
});

describe('on any sweep', () => {
  const sweeps = fc
    .array(
      fc.tuple(
        fc.double({ min: -50, max: 300, noNaN: true }),
        fc.double({ min: -300, max: 300, noNaN: true }),
      ),
      {
        minLength: 2,
        maxLength: 12,
      },
    )
    .map((points) =>
      createSweep({
        frequencyHz: Float64Array.from(points, (_, i) => (i + 1) * 1e6),
        resistanceOhm: Float64Array.from(points, ([r]) => r),
        reactanceOhm: Float64Array.from(points, ([, x]) => x),
      }),
    );

  it('resonances alternate between series and parallel and lie within the sweep', () => {
    fc.assert(
      fc.property(sweeps, (sweep) => {
        const found = findResonances(sweep);
        return found.every(
          (resonance, i) =>
            resonance.kind !== found[i - 1]?.kind &&
            resonance.frequencyHz >= 1e6 &&
            resonance.frequencyHz <= sweep.frequencyHz.length * 1e6,
        );
      }),
      SEED,
    );
  });

  it('dips are apart, rise, and exist exactly when the best SWR is under the limit', () => {
    fc.assert(
      fc.property(sweeps, (sweep) => {
        const dips = swrDips(sweep, 2);
        const best = bestSwr(sweep).swr ?? Number.POSITIVE_INFINITY;
        const apart = dips.every((dip, i) => dip.fromHz < dip.toHz && dip.fromHz > (dips[i - 1]?.toHz ?? 0));
        return apart && dips.length > 0 === best < 2;
      }),
      SEED,
    );
  });
});
