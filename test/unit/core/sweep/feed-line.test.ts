import { describe, expect, it } from 'vitest';
import {
  atPlane,
  feedLineOf,
  lineHides,
  matchedLossDb,
  throughLine,
} from '../../../../src/core/sweep/feed-line.ts';
import { grid, seriesCircuit } from '../../../support/antenna-model.ts';
import { expectClose } from '../../../support/expect-close.ts';

const cable = (type: string | null, lengthM: number) =>
  ({ type, lengthM, velocityFactor: null, impedanceOhm: null, loss: [] }) as const;

describe('a feed line', () => {
  it('is found by its class, however written', () => {
    for (const type of ['RG-58', 'rg58', 'RG 58'])
      expect(feedLineOf(cable(type, 10)).velocityFactor).toBe(0.66);
  });

  it('of an unknown class is refused with the known ones named', () => {
    expect(() => feedLineOf(cable('RG-999', 10))).toThrow(/type "RG-999" is not one of .*RG-213/u);
    expect(() => feedLineOf(cable('RG-5'.repeat(5000), 10))).toThrow(/^.{40,200}$/u);
  });

  it('takes the user’s own figures, and one loss figure as conductor loss', () => {
    const line = feedLineOf({
      type: null,
      lengthM: 100,
      velocityFactor: 0.8,
      impedanceOhm: 75,
      loss: [{ frequencyHz: 10e6, dbPer100M: 2 }],
    });
    expectClose(matchedLossDb(line, 40e6), 4, { relative: 1e-12 });
  });

  it('whose losses fall short of any physics is refused', () => {
    const loss = [
      { frequencyHz: 10e6, dbPer100M: 3.6 },
      { frequencyHz: 100e6, dbPer100M: 8.2 },
    ];
    expect(() => feedLineOf({ ...cable('RG-58', 10), loss })).toThrow('too slowly');
  });

  it('leaves a sweep alone that is at the wanted plane already', () => {
    const sweep = seriesCircuit(
      { resistanceOhm: 40, resonanceHz: 7.1e6, qualityFactor: 8 },
      grid(6.9e6, 7.3e6, 21),
    );
    expect(atPlane(sweep, feedLineOf(cable('RG-58', 12)), 'feedpoint')).toBe(sweep);
  });

  it('of half a wave without loss repeats its load', () => {
    const line = {
      impedanceOhm: 50,
      velocityFactor: 0.66,
      lengthM: (0.66 * 299.792458) / 7 / 2,
      conductorLossDb: 0,
      dielectricLossDb: 0,
    };
    const seen = throughLine({ re: 30, im: 17 }, line, 7e6, 'shack');
    expectClose(seen?.re, 30, { relative: 1e-9 });
    expectClose(seen?.im, 17, { relative: 1e-9 });
  });

  it('that is long and thin hides the feed point and says so; a short one does not', () => {
    const sweep = seriesCircuit(
      { resistanceOhm: 40, resonanceHz: 7.1e6, qualityFactor: 8 },
      grid(6.9e6, 7.3e6, 21),
    );
    expect(lineHides(sweep, feedLineOf(cable('RG-58', 10)), 7.1e6)).toBeNull();
    expect(lineHides(sweep, feedLineOf(cable('RG-174', 150)), 7.1e6)).toContain('measure at the feed point');
  });
});
