import { describe, expect, it } from 'vitest';
import { type Complex, complex, polar } from '../../../../src/core/complex.ts';
import {
  correctSweep,
  distortReflection,
  type ErrorTerms,
  errorTerms,
  type MeasuredStandard,
} from '../../../../src/core/sweep/calibration.ts';
import {
  idealStandard,
  type StandardName,
  standardReflection,
} from '../../../../src/core/sweep/calibration-standards.ts';
import type { ReflectionSweep } from '../../../../src/core/sweep/reflection-sweep.ts';
import { expectClose } from '../../../support/expect-close.ts';

const TERMS: ErrorTerms = {
  directivity: complex(0.03, -0.02),
  sourceMatch: complex(-0.05, 0.04),
  tracking: polar(0.9, -0.3),
};

function sweepOf(frequencies: readonly number[], at: (f: number) => Complex): ReflectionSweep {
  const values = frequencies.map(at);
  return {
    kind: 'reflection',
    frequencyHz: Float64Array.from(frequencies),
    reflectionRe: Float64Array.from(values, (v) => v.re),
    reflectionIm: Float64Array.from(values, (v) => v.im),
    referenceOhm: 50,
  };
}

function standardsOn(frequencies: readonly number[]): MeasuredStandard[] {
  return (['open', 'short', 'load'] as const satisfies readonly StandardName[]).map((name) => {
    const definition = { ...idealStandard(name), offsetDelayS: 40e-12 };
    const seen = (f: number): Complex => distortReflection(standardReflection(definition, f, 50), TERMS);
    return { definition, sweep: sweepOf(frequencies, seen) };
  });
}

const ANTENNA = (f: number): Complex => polar(0.3, f / 1e6);

describe('correctSweep', () => {
  it('gives back what a raw instrument distorted, on any grid within that of the standards', () => {
    const raw = sweepOf([7.013e6, 7.1e6, 7.187e6], (f) => distortReflection(ANTENNA(f), TERMS));
    const corrected = correctSweep(raw, standardsOn([7e6, 7.2e6]));
    for (let i = 0; i < 3; i++) {
      const expected = ANTENNA(raw.frequencyHz[i] as number);
      // The chord of the standards' arcs lies less than 1e-8 inside them over 0.2 MHz.
      expectClose(corrected.reflectionRe[i], expected.re, { absolute: 1e-8 });
      expectClose(corrected.reflectionIm[i], expected.im, { absolute: 1e-8 });
    }
  });

  it('leaves the raw sweep as it was', () => {
    const raw = sweepOf([7e6, 7.2e6], ANTENNA);
    const before = [...raw.reflectionRe];
    correctSweep(raw, standardsOn([7e6, 7.2e6]));
    expect([...raw.reflectionRe]).toEqual(before);
  });

  it('takes the latest of each standard', () => {
    const raw = sweepOf([7e6, 7.2e6], (f) => distortReflection(ANTENNA(f), TERMS));
    const wrong = { definition: idealStandard('load'), sweep: sweepOf([7e6, 7.2e6], () => complex(0.5)) };
    const corrected = correctSweep(raw, [wrong, ...standardsOn([7e6, 7.2e6])]);
    expectClose(corrected.reflectionRe[0], ANTENNA(7e6).re, { absolute: 1e-9 });
  });

  it('refuses a sweep that reaches beyond the standards', () => {
    const raw = sweepOf([7e6, 7.3e6], ANTENNA);
    expect(() => correctSweep(raw, standardsOn([7e6, 7.2e6]))).toThrowError(
      /does not cover 7000000 to 7300000 Hz/u,
    );
  });

  it('names the standard that is missing', () => {
    const raw = sweepOf([7e6, 7.2e6], ANTENNA);
    expect(() => correctSweep(raw, standardsOn([7e6, 7.2e6]).slice(0, 2))).toThrowError(
      /needs a sweep of the load/u,
    );
  });

  it('refuses standards swept against another reference', () => {
    const raw = { ...sweepOf([7e6, 7.2e6], ANTENNA), referenceOhm: 75 };
    expect(() => correctSweep(raw, standardsOn([7e6, 7.2e6]))).toThrowError(/against 50 ohm/u);
  });
});

describe('errorTerms', () => {
  it('refuses two standards that cannot be told apart, as when one was swept twice', () => {
    const measured = [complex(0.9), complex(0.88), complex(0)] as const;
    expect(() => errorTerms([complex(1), complex(-1), complex(0)], measured)).toThrowError(
      /differ by only 0\.020/u,
    );
  });
});

describe('standardReflection', () => {
  it('refuses a resistance for anything but a load', () => {
    const odd = { ...idealStandard('short'), loadOhm: 50 };
    expect(() => standardReflection(odd, 7e6, 50)).toThrowError(/only a load/u);
  });

  it('refuses a negative figure', () => {
    const odd = { ...idealStandard('open'), shuntCapacitanceF: -1e-15 };
    expect(() => standardReflection(odd, 7e6, 50)).toThrowError(/shunt capacitance of the open/u);
  });
});
