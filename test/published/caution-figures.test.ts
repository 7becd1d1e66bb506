/**
 * Figures in the cautions, each beside its source.
 *
 * Source: US state laws, as the one-call centres give them: 811 two to three business days ahead, and hand digging
 * within 18 to 24 in of a mark. Status: published.
 * Source: NFPA 70, table 300.5 (cover of buried cables), 810.21 and 810.58 (earthing of antennas). Status: published.
 * Source: US National Weather Service: 10 miles and 30 minutes. Status: published.
 * Source: ADA/ABA Standards, 303: 1/4 in. Status: published.
 * Source: ICNIRP, Health Physics 118(5), 483–524 (2020): contact current of 20 mA. Status: published.
 * Source: 29 CFR 1926.1053(b)(5)(i): ladder slope 1 in 4. Status: memory.
 * Source: IEC 60364-4-41: arm's reach of 1.25 m and 2.5 m. Status: memory.
 *
 * Tolerance: none; the cautions quote the figures as they stand.
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
