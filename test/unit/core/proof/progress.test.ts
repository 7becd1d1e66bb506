import { describe, expect, it } from 'vitest';
import { feedPointImpedanceOhm } from '../../../../src/core/ground/feed-point.ts';
import { uniformField } from '../../../../src/core/ground/radial-field.ts';
import { groundFit } from '../../../../src/core/proof/ground-fit.ts';
import { powerLawFit } from '../../../../src/core/proof/power-law-fit.ts';
import { progressOf } from '../../../../src/core/proof/progress.ts';
import { type FitPoint, progressSteps } from '../../../../src/core/proof/progress-steps.ts';
import { createRandomSource } from '../../../../src/core/proof/random.ts';
import { BAND, measuredVisitOf, vertical, visitOf } from '../../../support/compared.ts';
import { expectClose } from '../../../support/expect-close.ts';

const MONOPOLE = { heightM: 10.1, radiusM: 0.0125 };
const WIRE_RADIUS_M = 0.0008;
const LENGTH_M = 8;
const KNOWLEDGE = {
  monopole: MONOPOLE,
  wireRadiusM: WIRE_RADIUS_M,
  soil: null,
  radiationResistanceOhm: null,
};

function exactPoint(
  radials: number,
  soil: { conductivitySPerM: number; relativePermittivity: number },
  extra = 2,
): FitPoint {
  const frequencyHz = 7.1e6;
  const field = uniformField(radials, LENGTH_M, WIRE_RADIUS_M);
  return {
    laid: null,
    radials,
    lengthM: LENGTH_M,
    resonanceHz: frequencyHz,
    resistanceOhm: feedPointImpedanceOhm({ monopole: MONOPOLE, soil, field, frequencyHz }).re + extra,
    resistanceUncertaintyOhm: 0.3,
    reactanceUncertaintyOhm: 50,
  };
}

describe('groundFit', () => {
  const soil = { conductivitySPerM: 0.004, relativePermittivity: 12 };
  const points = [8, 16, 24, 32, 64].map((n) => exactPoint(n, soil));
  const found = groundFit(points, KNOWLEDGE);

  it('explains points of the same physics, and tells soil and extra resistance within their uncertainties', () => {
    expect(found?.quality.probability).toBeGreaterThan(0.5);
    for (const [name, truth] of [
      ['conductivitySPerM', 0.004],
      ['relativePermittivity', 12],
      ['extraResistanceOhm', 2],
    ] as const) {
      const parameter = found?.parameters[name];
      expectClose(parameter?.value, truth, { absolute: parameter?.expandedUncertainty ?? 0 });
    }
  });

  it('predicts R of more radials', () => {
    expectClose(
      found?.resistanceOhm({ radials: 120, lengthM: LENGTH_M }),
      exactPoint(120, soil).resistanceOhm,
      {
        absolute: 0.5,
      },
    );
  });

  it('does not explain a resistance that rises with the wires', () => {
    const odd = points.map((point, i) => ({ ...point, resistanceOhm: 40 + 6 * i }));
    const fit = groundFit(odd, KNOWLEDGE);
    expect(fit?.quality.probability ?? 0).toBeLessThan(0.01);
  });
});

describe('powerLawFit', () => {
  const points = [4, 8, 16, 32, 64].map((radials) => ({
    ...exactPoint(16, { conductivitySPerM: 0.005, relativePermittivity: 13 }),
    radials,
    resistanceOhm: 38 + 120 / radials,
  }));

  it('follows a power law with a floor', () => {
    const found = powerLawFit(points);
    expectClose(found?.parameters['exponent']?.value, 1, { absolute: 0.15 });
    expectClose(found?.parameters['floorOhm']?.value, 38, { absolute: 1.5 });
    const gain = found?.gain({ radials: 64, lengthM: 8 }, { radials: 128, lengthM: 8 });
    expectClose(gain?.valueDb, 10 * Math.log10((38 + 120 / 64) / (38 + 120 / 128)), { absolute: 0.04 });
  });

  it('needs two different numbers of radials', () => {
    expect(powerLawFit(points.slice(0, 1))).toBeNull();
  });
});

describe('progressSteps and progressOf', () => {
  const random = createRandomSource(51);
  const state = (radials: number, resistanceOhm: number, visits = 1) => ({
    radials,
    wireM: radials * LENGTH_M,
    time: '2026-04-01T10:00:00Z',
    visits: Array.from({ length: visits }, () => measuredVisitOf(resistanceOhm, random)),
  });
  const context = { instrument: null, line: null };
  const question = { ground: null, worthwhileDb: null, next: null, lastStrength: null };

  it('give a row a state, with dB against the first as a ratio of R', () => {
    const { steps } = progressSteps([state(4, 60), state(8, 52, 2), state(16, 46)], BAND, context);
    expect(steps.map(({ radials, visits }) => [radials, visits])).toEqual([
      [4, 1],
      [8, 2],
      [16, 1],
    ]);
    const last = steps[2];
    const ratio =
      (steps[0]?.resistanceAtResonanceOhm.value ?? 0) / (last?.resistanceAtResonanceOhm.value ?? 1);
    expectClose(last?.gainDb.value, 10 * Math.log10(ratio), { absolute: 1e-9 });
    expect(last?.gainDb.expandedUncertainty).toBeGreaterThan(0.05);
  });

  it('state no uncertainty where single shots are all there is', () => {
    const single = (radials: number, r: number) => ({
      ...state(radials, r),
      visits: [measuredVisitOf(r, random, { shots: 1 })],
    });
    const { steps } = progressSteps([single(8, 60), single(16, 50)], BAND, context);
    expect(steps.map(({ repeated }) => repeated)).toEqual([false, false]);
    expect(steps[1]?.resistanceAtResonanceOhm.expandedUncertainty).toBeNull();
    expect(steps[1]?.gainDb.expandedUncertainty).toBeNull();
    expect(steps[1]?.gainDb.value).toBeGreaterThan(0.5);
  });

  it('work without a site’s heights, by the power law, and say why', () => {
    const { steps } = progressSteps([state(4, 60), state(8, 52), state(16, 46)], BAND, context);
    const found = progressOf(steps, question);
    expect(found.fit?.name).toBe('power law with a floor');
    expect(found.whyNotGround).toContain('height and diameter');
    expect(found.next).toMatchObject({ radials: 16, wireM: 16 * LENGTH_M });
    expectClose(found.next?.gainPerMetreDb, (found.next?.gainDb.value ?? 0) / 128, { relative: 1e-12 });
  });

  it('fall back to the power law where no soil explains the points', () => {
    const { steps } = progressSteps(
      [state(8, 90), state(16, 41), state(32, 40.5), state(64, 40)],
      BAND,
      context,
    );
    const found = progressOf(steps, { ...question, ground: KNOWLEDGE });
    expect(found.fit?.name).toBe('power law with a floor');
    expect(found.whyNotGround).toContain('no soil explains the points');
  });

  it('leave a visit out that stands far from the others of its state', () => {
    const good = state(16, 46, 5);
    const bad = { ...measuredVisitOf(58, random), label: 'visit 9' };
    const { steps, oddVisits } = progressSteps(
      [state(8, 52), { ...good, visits: [...good.visits, bad] }],
      BAND,
      context,
    );
    expect(oddVisits).toEqual(['visit 9']);
    expectClose(steps[1]?.resistanceAtResonanceOhm.value, 46, { absolute: 1 });
  });

  it('have no fit without radials, nor where X never crosses zero, and say what to do', () => {
    const { steps } = progressSteps(
      [state(0, 80), { ...state(8, 50), visits: [visitOf([vertical(50, 9.5e6)])] }],
      BAND,
      context,
    );
    expect(steps.map(({ point }) => point)).toEqual([null, null]);
    const found = progressOf(steps, question);
    expect([found.advice, found.fit, found.next]).toEqual(['measure again', null, null]);
    expect(found.why).toContain('sweep wider');
    expect(progressOf([], question).why).toContain('nothing was measured yet');
  });
});
