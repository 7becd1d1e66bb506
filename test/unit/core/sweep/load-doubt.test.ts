import { describe, expect, it } from 'vitest';
import { loadDoubt } from '../../../../src/core/sweep/load-doubt.ts';
import { createSweep } from '../../../../src/core/sweep/sweep.ts';
import { expectClose } from '../../../support/expect-close.ts';

const frequencyHz = Float64Array.of(7e6, 7.1e6, 7.2e6, 7.3e6);

function sweepOf(resistanceOhm: readonly number[], reactanceOhm: readonly number[]) {
  return createSweep({
    frequencyHz,
    resistanceOhm: Float64Array.from(resistanceOhm),
    reactanceOhm: Float64Array.from(reactanceOhm),
    referenceOhm: 50,
    plane: 'feedpoint',
  });
}

describe('loadDoubt', () => {
  it('has none of a resistor that matches, though its noise passes zero', () => {
    expect(loadDoubt(sweepOf([49.6, 49.7, 49.6, 49.5], [0.1, -0.05, 0.1, -0.1]))).toBeNull();
    expect(loadDoubt(sweepOf([59, 59, 59, 59], [0, 0, 0, 0]))).toBeNull();
  });

  it('asks about a resistor of another value, by its SWR alone', () => {
    // 75 ohm against 50 ohm: SWR is the ratio of the two.
    const doubt = loadDoubt(sweepOf([75, 75, 75, 75], [0.2, -0.1, 0.2, 0.1]));
    expectClose(doubt?.worstSwr, 1.5, { absolute: 1e-3 });
    expect(doubt?.resonanceHz).toBeNull();
  });

  it('tells the resonance of an antenna, also of one that matches', () => {
    const doubt = loadDoubt(sweepOf([49, 50, 51, 52], [-6, -2, 2, 6]));
    expectClose(doubt?.resonanceHz, 7.15e6, { relative: 1e-9 });
  });

  it('knows no SWR of what reflects everything', () => {
    expect(loadDoubt(sweepOf([0, 0, 0, 0], [0.5, 0.5, 0.5, 0.5]))).toEqual({
      worstSwr: null,
      resonanceHz: null,
    });
  });
});
