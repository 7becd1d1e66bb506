/**
 * Figures in the cautions, each beside its source.
 *
 * Published: 811 two to three business days ahead and hand digging within 18 to 24 in of a mark (US state laws, as
 * the one-call centres give them); cover of buried cables, NFPA 70 table 300.5; 10 miles and 30 minutes, US National
 * Weather Service; NEC 810.21 and 810.58; 1/4 in, ADA/ABA 303; 20 mA, ICNIRP, Health Physics 118(5) (2020).
 * Memory: ladder slope 1 in 4, 29 CFR 1926.1053(b)(5)(i); arm's reach 1.25 m and 2.5 m, IEC 60364-4-41.
 */
import { describe, expect, it } from 'vitest';
import { cautionsFor } from '../../src/core/safety/cautions.ts';
import { ARMS_REACH_M, TOUCH_DISTANCE_M } from '../../src/core/safety/keep-off.ts';

describe('the cautions quote', () => {
  it.each([
    ['digging', 'call 811 two to three business days ahead'],
    ['digging', 'within 0.6 m (24 in) of a mark'],
    ['digging', 'only 150 mm (6 in) down'],
    ['laying', 'higher than 6 mm (1/4 in)'],
    ['transmitting', '20 mA (ICNIRP 2020, to 10 MHz)'],
    ['thunder', '16 km (10 miles)'],
    ['thunder', '30 min after the last thunder'],
    ['mains-earth', 'NEC 810.21 and 810.58'],
    ['ladders', 'one quarter of the height'],
  ] as const)('for %s: %s', (job, figure) => {
    expect(cautionsFor(job).join(' ')).toContain(figure);
  });

  it('and nobody is told to come nearer than arm’s reach', () => {
    expect(ARMS_REACH_M).toBe(1.25);
    expect(TOUCH_DISTANCE_M).toBe(1.3);
  });
});
