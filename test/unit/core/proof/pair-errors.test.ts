import { describe, expect, it } from 'vitest';
import { NO_CONDITIONS } from '../../../../src/core/proof/conditions.ts';
import { choosePairErrors, type ErrorKnowledge } from '../../../../src/core/proof/pair-errors.ts';
import { createRandomSource } from '../../../../src/core/proof/random.ts';
import { referenceLoadScatter } from '../../../../src/core/proof/reference-load.ts';
import { withReflectionError } from '../../../../src/core/proof/reflection-error.ts';
import type { ConditionedVisit } from '../../../../src/core/proof/soil-change.ts';
import { visitInBand } from '../../../../src/core/proof/visit-in-band.ts';
import type { Sweep } from '../../../../src/core/sweep/sweep.ts';
import { BAND, measuredVisitOf, vertical } from '../../../support/compared.ts';
import { expectClose } from '../../../support/expect-close.ts';

const random = createRandomSource(81);
const R = 'resistanceAtResonanceOhm';

function read(shots: readonly Sweep[]): ConditionedVisit {
  return { ...visitInBand(shots, BAND, 0.005), label: 'visit', conditions: NO_CONDITIONS };
}

function visit(shots = 3): ConditionedVisit {
  return read(measuredVisitOf(45, random, { shots }).shots as Sweep[]);
}

const one = (only: ConditionedVisit) => [{ visit: only, share: 1 }];

const KNOWLEDGE: ErrorKnowledge = {
  accuracy: { reflection: 0.005, turnRad: 0.02, stated: true },
  states: [],
  loadScatter: null,
  loadScatterOfPair: null,
};

function choose(before: ConditionedVisit, after: ConditionedVisit, more: Partial<ErrorKnowledge> = {}) {
  return choosePairErrors(R, { before: one(before), after: one(after) }, { ...KNOWLEDGE, ...more });
}

describe('choosePairErrors', () => {
  it('takes each visit’s own repeats and the stated accuracy where there is nothing else', () => {
    const found = choose(visit(), visit());
    expect([found.repeats, found.visits]).toEqual(['pair', 'instrument']);
    expect(found.sides.before[0]?.shot).not.toBe(found.sides.after[0]?.shot);
    expect(found.errors).toMatchObject({ visit: { variance: 0.005 ** 2 }, turnRad: 0.02 });
  });

  it('knows of no repeats for a single shot', () => {
    expect(choose(visit(), visit(1)).repeats).toBe('none');
  });

  it('pools the shots of a logbook, as one estimate for both sides', () => {
    const found = choose(visit(), visit(1), { states: [[visit()], [visit()], [visit()]] });
    expect(found.repeats).toBe('pooled');
    expect(found.sides.before[0]?.shot).toBe(found.sides.after[0]?.shot);
    expect(found.sides.before[0]?.shot?.degreesOfFreedom).toBe(6);
  });

  it('lets a visit that scatters quite unlike the logbook keep its own scatter', () => {
    const wild = [0.03, -0.04, 0.02].map((shiftRe) =>
      withReflectionError(vertical(45), { shiftRe, shiftIm: 0, trackingRe: 0, trackingIm: 0 }),
    );
    const found = choose(visit(), read(wild), { states: [[visit()], [visit()], [visit()]] });
    expect(found.repeats).toBe('pair');
  });

  it('takes the scatter of visits of one state before that of the reference load, and this before the stated', () => {
    const load = { variance: 0.002 ** 2, degreesOfFreedom: 12 };
    expect(choose(visit(), visit(), { loadScatter: load }).visits).toBe('reference load');
    const states = [Array.from({ length: 6 }, () => visit())];
    expect(choose(visit(), visit(), { loadScatter: load, states }).visits).toBe('repeated visits');
  });

  it('takes a reference load that moved between the two visits before all', () => {
    const moved = { variance: 0.02 ** 2, degreesOfFreedom: 2 };
    const found = choose(visit(), visit(), { loadScatterOfPair: moved });
    expect([found.visits, found.errors.visit]).toEqual(['reference load', moved]);
  });

  it('never states a figure by itself better than the instrument is', () => {
    const load = { variance: 0.001 ** 2, degreesOfFreedom: 12 };
    expectClose(choose(visit(), visit(), { loadScatter: load }).errors.visitAlone.variance, 0.005 ** 2, {
      relative: 1e-12,
    });
  });
});

describe('referenceLoadScatter', () => {
  it('is the variance of the reflection from visit to visit, half of it for each component', () => {
    const load = (re: number, im: number): Sweep[] => [
      withReflectionError(vertical(50), { shiftRe: re, shiftIm: im, trackingRe: 0, trackingIm: 0 }),
    ];
    const found = referenceLoadScatter([load(0.01, 0), [], load(-0.01, 0.02), load(0, 0.01)], BAND);
    // Deviations (0.01, −0.01), (−0.01, 0.01), (0, 0): 4·10⁻⁴ over four degrees of freedom.
    expectClose(found?.variance, 1e-4, { relative: 1e-6 });
    expect(found?.degreesOfFreedom).toBe(4);
  });

  it('is null for fewer than two visits with a load', () => {
    expect(referenceLoadScatter([[], [vertical(50)]], BAND)).toBeNull();
  });
});
