import { describe, expect, it } from 'vitest';
import { createRandomSource } from '../../../../src/core/proof/random.ts';
import { withReflectionError } from '../../../../src/core/proof/reflection-error.ts';
import { poolRepeatability } from '../../../../src/core/proof/repeatability.ts';
import { visitInBand } from '../../../../src/core/proof/visit-in-band.ts';
import { BAND, vertical } from '../../../support/compared.ts';
import { expectClose } from '../../../support/expect-close.ts';

const random = createRandomSource(17);
const PER_VISIT = 0.006;
const PER_SHOT = 0.002;

/** Shots with shifts of known size, at one resistance. */
function visit(resistanceOhm: number, shots: number) {
  const [re, im] = [PER_VISIT * random.normal(), PER_VISIT * random.normal()];
  const sweeps = Array.from({ length: shots }, () =>
    withReflectionError(vertical(resistanceOhm), {
      shiftRe: re + PER_SHOT * random.normal(),
      shiftIm: im + PER_SHOT * random.normal(),
      trackingRe: 0,
      trackingIm: 0,
    }),
  );
  return visitInBand(sweeps, BAND, 0.005);
}

describe('poolRepeatability', () => {
  // Errors of one size move R of 80 ohm nearly three times as much as R of 30 ohm: only in Γ can they be pooled.
  const states = [80, 60, 45, 30].map((r) => Array.from({ length: 12 }, () => visit(r, 4)));
  const found = poolRepeatability(states, 'resistanceAtResonanceOhm');

  it('finds the scatter of a shot and of a visit again, in the reflection plane', () => {
    expectClose(Math.sqrt(found.shot?.variance ?? 0), PER_SHOT, { relative: 0.15 });
    expectClose(Math.sqrt(found.visit?.variance ?? 0), PER_VISIT, { relative: 0.2 });
  });

  it('counts the degrees of freedom within visits, and between visits within states', () => {
    expect(found.shot?.degreesOfFreedom).toBe(4 * 12 * 3);
    expect(found.visit?.degreesOfFreedom).toBe(4 * 11);
  });

  it('knows nothing of shots from single ones, and nothing of visits from single ones', () => {
    expect(poolRepeatability([[visit(40, 1)], [visit(50, 1)]], 'resistanceAtResonanceOhm')).toEqual({
      shot: null,
      visit: null,
    });
    expect(poolRepeatability([[visit(40, 1), visit(40, 1)]], 'resistanceAtResonanceOhm').shot).toBeNull();
    expect(poolRepeatability([[visit(40, 3)]], 'resistanceAtResonanceOhm').visit).toBeNull();
  });
});
