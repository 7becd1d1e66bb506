import { describe, expect, it } from 'vitest';
import { createRandomSource } from '../../../../src/core/proof/random.ts';
import {
  chooseHalfWidth,
  createSmoother,
  sharedLocalFits,
  smooth,
} from '../../../../src/core/proof/smoother.ts';
import { createSweep, type Sweep } from '../../../../src/core/sweep/sweep.ts';
import { grid } from '../../../support/antenna-model.ts';
import { expectClose } from '../../../support/expect-close.ts';

const f = grid(6e6, 8e6, 81);

function sweepOf(resistance: (mhz: number) => number, reactance: (mhz: number) => number): Sweep {
  return createSweep({
    frequencyHz: f,
    resistanceOhm: f.map((hz) => resistance(hz / 1e6)),
    reactanceOhm: f.map((hz) => reactance(hz / 1e6)),
  });
}

function rms(values: Float64Array): number {
  return Math.sqrt(values.reduce((sum, value) => sum + value * value, 0) / values.length);
}

describe('createSmoother and smooth', () => {
  it('leave a parabola as it is, also at the ends of the sweep', () => {
    const sweep = sweepOf(
      (m) => 40 + 3 * m * m,
      (m) => 100 * (m - 7) - 5 * (m - 7) ** 2,
    );
    const smoothed = smooth(sweep, createSmoother(f, 0, 1e9, 0.04));
    smoothed.resistanceOhm.forEach((r, i) => {
      expectClose(r, sweep.resistanceOhm[i] as number, { relative: 1e-9 });
      expectClose(smoothed.reactanceOhm[i], sweep.reactanceOhm[i] as number, { absolute: 1e-8 });
    });
  });

  it('share the noise of a point among its neighbours', () => {
    const random = createRandomSource(3);
    const noisy = sweepOf(
      () => random.normal(),
      () => random.normal(),
    );
    const smoothed = smooth(noisy, createSmoother(f, 0, 1e9, 0.04));
    expect(rms(smoothed.resistanceOhm)).toBeLessThan(0.5 * rms(noisy.resistanceOhm));
  });

  it('cut to the range that is asked for, and keep a sweep of a few points as it is', () => {
    expect(createSmoother(f, 6.5e6, 7.5e6, 0.04).frequencyHz[0]).toBe(6.5e6);
    const few = createSweep({
      frequencyHz: Float64Array.of(7e6, 7.1e6, 7.2e6),
      resistanceOhm: Float64Array.of(40, 60, 41),
      reactanceOhm: Float64Array.of(-1, 0, 1),
    });
    expect(smooth(few, createSmoother(few.frequencyHz, 0, 1e9, 0.04)).resistanceOhm).toEqual(
      few.resistanceOhm,
    );
  });
});

describe('chooseHalfWidth', () => {
  it('takes the widest window for an antenna that bends little, noisy or not', () => {
    const random = createRandomSource(4);
    const clean = sweepOf(
      (m) => 40 + m,
      (m) => 110 * (m - 7),
    );
    const noisy = sweepOf(
      (m) => 40 + m + random.normal(),
      (m) => 110 * (m - 7) + random.normal(),
    );
    expect(chooseHalfWidth(clean, 7e6, 7.2e6)).toBe(0.04);
    expect(chooseHalfWidth(noisy, 7e6, 7.2e6)).toBe(0.04);
  });

  it('narrows the window where a trap makes the impedance turn within it', () => {
    const sharp = sweepOf(
      (m) => 40 + 200 / (1 + ((m - 7.1) / 0.03) ** 2),
      (m) => 110 * (m - 7),
    );
    expect(chooseHalfWidth(sharp, 7e6, 7.2e6)).toBeLessThan(0.02);
  });
});

describe('sharedLocalFits', () => {
  it('prepares sweeps on one grid once, and each as by itself', () => {
    const fitsOf = sharedLocalFits();
    const [one, equal, other] = [f, f.slice(), grid(6e6, 8e6, 61)];
    expect(fitsOf(equal)).toBe(fitsOf(one));
    expect(fitsOf(other)).not.toBe(fitsOf(one));
    for (const gridHz of [equal, other]) {
      expect(createSmoother(gridHz, 6.5e6, 7.5e6, 0.02, fitsOf(gridHz))).toEqual(
        createSmoother(gridHz, 6.5e6, 7.5e6, 0.02),
      );
    }
  });
});
