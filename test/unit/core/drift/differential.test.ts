import { describe, expect, it } from 'vitest';
import { CAUSES } from '../../../../src/core/drift/cause.ts';
import { diagnose } from '../../../../src/core/drift/diagnosis.ts';
import { createSweep } from '../../../../src/core/sweep/sweep.ts';
import { generateCase } from '../../../support/drift/generate-case.ts';
import { VARIANTS, type Variant } from '../../../support/drift/variants.ts';

const PLAIN = VARIANTS[0] as Variant;

describe('a diagnosis', () => {
  const diagnosis = diagnose(generateCase(PLAIN, 3));

  it('names every cause once, likeliest first, with probabilities that sum to 1', () => {
    expect(diagnosis.causes.map(({ cause }) => cause).sort()).toEqual([...CAUSES].sort());
    const probabilities = diagnosis.causes.map(({ probability }) => probability);
    expect([...probabilities].sort((a, b) => b - a)).toEqual(probabilities);
    expect(Math.abs(probabilities.reduce((sum, p) => sum + p, 0) - 1)).toBeLessThan(1e-9);
  });

  it('gives evidence and a first check for each', () => {
    for (const { evidence, checkFirst } of diagnosis.causes) {
      expect(evidence.length).toBeGreaterThan(0);
      expect(checkFirst).not.toBe('');
    }
  });

  it('has finite figures or null, never NaN', () => {
    expect(JSON.stringify(diagnosis.causes)).not.toContain('"value":null');
  });
});

describe('a joint that was bad in the baseline and has been mended since', () => {
  const seeds = Array.from({ length: 60 }, (_, i) => 4_000_000 + i);
  const joints = seeds
    .map((seed) => generateCase(PLAIN, seed))
    .filter(({ cause, size }) => cause === 'series-joint' && size === 'large');

  it('is told as one that has lost resistance, never as radials or a contact', () => {
    expect(joints.length).toBeGreaterThan(1);
    for (const bad of joints) {
      const { before, after, referenceBefore, referenceAfter } = bad;
      const mended = { before: after, after: before };
      const loads = { referenceBefore: referenceAfter, referenceAfter: referenceBefore };
      const [top] = diagnose({ ...bad, ...mended, ...loads }).causes;
      expect(top?.cause).toBe('series-joint');
      expect(top?.estimate?.value).toBeLessThan(0);
    }
  });
});

describe('a fault that grows from visit to visit', () => {
  const healthy = Array.from({ length: 80 }, (_, i) => generateCase(PLAIN, 4_000_000 + i)).filter(
    ({ cause, after }) => cause === 'none' && after.length === 3,
  );
  const withJoint = (ohms: readonly number[]) =>
    healthy.map((unchanged) => ({
      ...unchanged,
      after: unchanged.after.map((visit, i) => ({
        ...visit,
        shots: visit.shots.map((shot) =>
          createSweep({ ...shot, resistanceOhm: shot.resistanceOhm.map((r) => r + (ohms[i] as number)) }),
        ),
      })),
    }));

  it('is a joint that corrodes, and no contact that comes and goes', () => {
    expect(healthy.length).toBeGreaterThan(0);
    for (const grown of withJoint([3, 6, 9])) expect(diagnose(grown).causes[0]?.cause).toBe('series-joint');
  });

  it('is a contact where it goes up and down', () => {
    for (const swung of withJoint([9, 1, 8])) expect(diagnose(swung).causes[0]?.cause).toBe('intermittent');
  });
});
