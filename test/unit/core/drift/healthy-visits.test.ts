import { describe, expect, it } from 'vitest';
import { diagnose } from '../../../../src/core/drift/diagnosis.ts';
import type { MeasuredVisit } from '../../../../src/core/record.ts';
import { createSweep } from '../../../../src/core/sweep/sweep.ts';
import { grid } from '../../../support/antenna-model.ts';
import { siteOf } from '../../../support/drift/site-of.ts';
import { random } from '../../../support/random.ts';

const SITE = siteOf({ heightM: 10, diameterM: 0.025, count: 24, lengthM: 6, radialDiameterM: 0.002 });
const F = grid(6.9e6, 7.3e6, 101);

/**
 * A healthy antenna on an instrument whose noise is in ohms, drawn out over neighbouring points and not equal from day to
 * day: nothing that the models know.
 */
function healthyVisits(seed: number): MeasuredVisit[] {
  const r = random(seed);
  return Array.from({ length: 6 }, (_, visit) => {
    const [loss, tuning, noise] = [r.normal(0.15), r.normal(3e3), r.between(0.08, 0.25)];
    const shots = Array.from({ length: 3 }, () => {
      const smeared = (): Float64Array => {
        const white = Float64Array.from({ length: F.length + 2 }, () => r.normal(noise));
        return F.map(
          (_, i) => ((white[i] as number) + (white[i + 1] as number) + (white[i + 2] as number)) / 2,
        );
      };
      const [ofR, ofX] = [smeared(), smeared()];
      return createSweep({
        frequencyHz: F,
        resistanceOhm: F.map((_, i) => 41 + loss + (ofR[i] as number)),
        reactanceOhm: F.map(
          (f, i) => 320 * (f / (7.1e6 + tuning) - (7.1e6 + tuning) / f) + (ofX[i] as number),
        ),
      });
    });
    return { label: `visit ${visit}`, time: null, shots, referenceLoad: [] };
  });
}

describe('an unchanged antenna on a noisy instrument', () => {
  it('is no contact that comes and goes, nor anything else of which the diagnosis is near certain', () => {
    for (let seed = 1; seed <= 12; seed++) {
      const visits = healthyVisits(seed);
      const [top] = diagnose({
        before: visits.slice(0, 5),
        after: visits.slice(5),
        referenceBefore: [],
        referenceAfter: [],
        site: SITE,
      }).causes;
      expect
        .soft(top?.cause === 'none' || (top?.probability as number) < 0.8, `${seed} ${top?.cause}`)
        .toBe(true);
      expect.soft(top?.cause, String(seed)).not.toBe('intermittent');
    }
  });
});
