import { describe, expect, it } from 'vitest';
import { type SteadyCauses, steadyCauses } from '../../../../src/core/drift/steady-causes.ts';

/** What is named after each of several diagnoses of a joint, the rest being nothing at all. */
function namedAt(...joint: readonly number[]): string[] {
  let steady: SteadyCauses | null = null;
  return joint.map((probability) => {
    steady = steadyCauses(steady, [
      { cause: 'none', probability: 1 - probability },
      { cause: 'series-joint', probability },
    ]);
    return steady.named.join(' ');
  });
}

describe('the likely causes over many visits', () => {
  it('take the first diagnosis as it is, likeliest first', () => {
    expect(namedAt(0.05)).toEqual(['none']);
    expect(namedAt(0.6)).toEqual(['series-joint none']);
  });

  it('wait for the next visit before a cause comes', () => {
    expect(namedAt(0.05, 0.6, 0.6)).toEqual(['none', 'none', 'series-joint none']);
    expect(namedAt(0.05, 0.6, 0.05, 0.6, 0.05)).toEqual(Array(5).fill('none'));
  });

  it('name a clear fault at once, but wait for a second visit before all is well again', () => {
    expect(namedAt(0.05, 0.95, 0.05, 0.05)).toEqual(['none', 'series-joint', 'series-joint', 'none']);
  });

  it('do not follow a probability that wavers about a limit', () => {
    const wavering = [0.05, 0.32, 0.32, 0.28, 0.32, 0.15, 0.35, 0.28];
    expect(new Set(namedAt(...wavering).slice(2))).toEqual(new Set(['none series-joint']));
    expect(new Set(namedAt(0.05, 0.28, 0.28, 0.2, 0.29, 0.28))).toEqual(new Set(['none']));
  });

  it('let a cause go only when it has clearly fallen back, twice running', () => {
    expect(namedAt(0.6, 0.2, 0.2)).toEqual(['series-joint none', 'none series-joint', 'none series-joint']);
    expect(namedAt(0.6, 0.05, 0.05)).toEqual(['series-joint none', 'none series-joint', 'none']);
    expect(namedAt(0.6, 0.05, 0.2, 0.05)).toEqual([
      'series-joint none',
      ...Array(3).fill('none series-joint'),
    ]);
  });
});
