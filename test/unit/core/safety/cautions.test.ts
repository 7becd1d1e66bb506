import { describe, expect, it } from 'vitest';
import { type CautionJob, cautionsFor } from '../../../../src/core/safety/cautions.ts';

const JOBS: readonly CautionJob[] = [
  'digging',
  'laying',
  'hanging',
  'pinning',
  'transmitting',
  'measuring',
  'thunder',
  'mains-earth',
  'ladders',
];

describe('cautionsFor', () => {
  it.each(JOBS)('gives a short list of whole sentences for %s', (job) => {
    const cautions = cautionsFor(job);
    expect(cautions.length).toBeGreaterThanOrEqual(3);
    expect(cautions.length).toBeLessThanOrEqual(5);
    for (const caution of cautions) expect(caution).toMatch(/^[A-Z].{20,220}\.$/u);
  });

  it('never gives a verdict of its own on danger', () => {
    expect(JOBS.flatMap(cautionsFor).join(' ')).not.toMatch(/\bsafe(ly|ty)?\b/iu);
  });

  it('defers digging to the network owners and the mains earth to a licensed electrician', () => {
    expect(cautionsFor('digging').join(' ')).toContain('ask the network owners');
    expect(cautionsFor('mains-earth').join(' ')).toContain('licensed electrician');
  });
});
