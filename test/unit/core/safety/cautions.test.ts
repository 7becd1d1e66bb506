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
    expect(JOBS.flatMap((job) => cautionsFor(job)).join(' ')).not.toMatch(/\bsafe(ly|ty)?\b/iu);
  });

  it('defers digging to the network owners and the mains earth to a licensed electrician', () => {
    expect(cautionsFor('digging').join(' ')).toContain('ask the network owners');
    expect(cautionsFor('mains-earth').join(' ')).toContain('licensed electrician');
  });

  it('give the figures of imperial readers in front', () => {
    const told = JOBS.flatMap((job) => cautionsFor(job, 'imperial')).join('\n');
    for (const figure of ['24 in (0.6 m)', '6 in (150 mm)', '1/4 in (6 mm)', '10 miles (16 km)']) {
      expect(told).toContain(figure);
    }
    expect(told).not.toMatch(/\d (?:mm|m|km) \(/u);
  });
});
