import { describe, expect, it } from 'vitest';
import { assessSafety } from '../../../../src/core/safety/assess.ts';
import type { PlaceExposure } from '../../../../src/core/safety/place-verdict.ts';
import type { Point, Site } from '../../../../src/core/site.ts';
import { expectClose } from '../../../support/expect-close.ts';
import { safetySite } from '../../../support/safety-site.ts';

interface Wanted {
  readonly at: Point;
  readonly heightM?: number;
  readonly powerW?: number;
  readonly insulated?: boolean;
  readonly depthM?: number | null;
  readonly limits?: string;
  /** How many radials share the current; the second and later ones lie far from the place. */
  readonly count?: number;
}

/** Radial 1 lies 6 m eastwards from the base. */
function judge(wanted: Wanted): PlaceExposure {
  const { at, heightM = 0, powerW = 100, insulated = true, depthM = 0.02, limits = 'fcc-general' } = wanted;
  const { lot, radials } = safetySite();
  const site: Site = safetySite({
    limits,
    radials: radials === null ? null : { ...radials, insulated, depthM },
    lot: lot === null ? null : { ...lot, base: [0, 0], places: [{ name: 'place', at, heightM }] },
    transmit: [{ band: '40m', peakPowerW: powerW, mode: 'carrier', onAirFraction: 1 }],
  });
  const laid = Array.from({ length: wanted.count ?? 24 }, (_, i) => ({
    number: i + 1,
    lengthM: 6,
    bearingDeg: i === 0 ? 90 : 270,
    route: null,
    since: null,
  }));
  const fieldState = { since: null, radials: laid, wireM: 6 * laid.length };
  return assessSafety(site, { fieldState }).bands[0]?.places[0] as PlaceExposure;
}

describe('a place near a radial on the ground', () => {
  it('is kept out of within arm’s reach of an open end, insulated or not, at any power', () => {
    for (const insulated of [true, false]) {
      for (const powerW of [0.5, 1500]) {
        expect(judge({ at: [7.2, 0], insulated, powerW })).toMatchObject({
          verdict: 'keep out',
          maxPowerW: 0,
          basis: 'arm’s reach',
          decidingRadial: 1,
          nearestEnd: { radial: 1, distanceM: 1.2 },
        });
      }
    }
    expect(judge({ at: [7.3, 0] })).toMatchObject({ verdict: 'clear', decidingRadial: null });
  });

  it('is kept out of beside the length of a wire only where that is bare on the surface', () => {
    const beside = { at: [3, 0.8] } as const;
    expect(judge(beside)).toMatchObject({ verdict: 'clear', nearestWire: { radial: 1, distanceM: 0.8 } });
    expect(judge({ ...beside, insulated: false })).toMatchObject({ verdict: 'clear' });
    for (const depthM of [0, null]) {
      expect(judge({ ...beside, insulated: false, depthM })).toMatchObject({
        verdict: 'keep out',
        decidingRadial: 1,
      });
    }
  });

  it('comes within the limits at the power at which the field beside the wire does', () => {
    const beside = { at: [3, 0.8], limits: 'safety-code-6-uncontrolled', count: 2 } as const;
    const { verdict, maxPowerW, basis, decidingRadial } = judge({ ...beside, powerW: 1500 });
    expect([verdict, basis, decidingRadial]).toEqual(['reduce power', 'electric field', 1]);
    expect(judge({ ...beside, powerW: maxPowerW }).verdict).toBe('clear');
    expect(judge({ ...beside, powerW: maxPowerW * 1.01 }).verdict).toBe('reduce power');
    // The field is inverse with distance and the power goes with its square; three digits are told.
    expectClose(judge({ ...beside, at: [3, 0.4] }).maxPowerW, maxPowerW / 4, { relative: 0.02 });
    expectClose(judge({ ...beside, count: 4 }).maxPowerW, maxPowerW * 4, { relative: 0.02 });
  });

  it('is out of touch of it high over the ground', () => {
    expect(judge({ at: [6.5, 0], heightM: 3.2 }).verdict).toBe('keep out');
    expect(judge({ at: [6.5, 0], heightM: 3.3 }).verdict).toBe('clear');
  });

  it('is told the distances from the journal’s routes, each with its radial', () => {
    const { lot } = safetySite();
    const site = safetySite({
      lot: lot === null ? null : { ...lot, base: [0, 0], places: [{ name: 'seat', at: [2, 1], heightM: 0 }] },
    });
    const radial = { lengthM: 6, bearingDeg: null, since: null };
    const bent: Point[] = [
      [0, 0],
      [2, 0],
      [2, -4],
    ];
    const straight: Point[] = [
      [0, 0],
      [0, 2.5],
    ];
    const fieldState = {
      since: null,
      radials: [
        { ...radial, number: 4, route: bent },
        { ...radial, number: 7, route: straight },
        { ...radial, number: 9, route: null },
      ],
      wireM: 18,
    };
    const { bands, radials } = assessSafety(site, { fieldState });
    expect(bands[0]?.places[0]).toMatchObject({
      nearestEnd: { radial: 7, distanceM: 2.5 },
      nearestWire: { radial: 4, distanceM: 1 },
    });
    expect(radials.unplaced).toBe(1);
  });
});

describe('a radial of which nobody knows where it lies', () => {
  it('is told of where it is long enough to end within arm’s reach of a place, and where nothing is known', () => {
    const mayReach = (change: Partial<Site>) =>
      assessSafety(safetySite(change)).bands[0]?.places.map(({ name, unplacedMayReach }) =>
        unplacedMayReach ? name : null,
      );
    const { radials } = safetySite();
    // 24 of 6 m: the bench is 6.4 m off, the window 8 m off and 4 m up.
    expect(mayReach({})).toEqual(['bench', 'step', 'sandpit', null]);
    expect(mayReach({ radials: radials === null ? null : { ...radials, lengthM: 4 } })).toEqual([
      null,
      'step',
      'sandpit',
      null,
    ]);
    expect(mayReach({ radials: null })).toEqual(['bench', 'step', 'sandpit', null]);
  });
});

describe('the keep-off distance of the ends on the ground', () => {
  it('is the one that the verdicts follow', () => {
    const { lot, radials } = safetySite();
    const at = (eastM: number, depthM: number) => {
      const site = safetySite({
        limits: 'safety-code-6-uncontrolled',
        radials: radials === null ? null : { ...radials, depthM },
        lot:
          lot === null
            ? null
            : { ...lot, base: [0, 0], places: [{ name: 'place', at: [eastM, 0], heightM: 0 }] },
        transmit: [{ band: '40m', peakPowerW: 1500, mode: 'carrier', onAirFraction: 1 }],
      });
      const one = { number: 1, lengthM: 6, bearingDeg: 90, route: null, since: null };
      return assessSafety(site, { fieldState: { since: null, radials: [one], wireM: 6 } }).bands[0];
    };
    const keepOffM = at(7, 0)?.wireEnds.find(({ end }) => end === 'radial end')?.keepOffM ?? 0;
    expect(keepOffM).toBeGreaterThan(5);
    expect(at(6 + keepOffM - 0.05, 0)?.places[0]?.verdict).toBe('reduce power');
    expect(at(6 + keepOffM + 0.05, 0)?.places[0]?.verdict).toBe('clear');
  });
});

describe('a place near raised radials', () => {
  const raised = (
    at: Point,
    bearingsDeg: readonly (number | null)[],
    baseHeightM = 2,
    depthM: number | null = null,
  ): PlaceExposure => {
    const { lot, antenna, radials: stock } = safetySite();
    const site: Site = safetySite({
      antenna: { ...antenna, baseHeightM },
      radials: stock === null ? null : { ...stock, depthM },
      lot: lot === null ? null : { ...lot, base: [0, 0], places: [{ name: 'place', at, heightM: 0 }] },
      transmit: [{ band: '40m', peakPowerW: 1, mode: 'carrier', onAirFraction: 1 }],
    });
    const radials = bearingsDeg.map((bearingDeg, i) => ({
      number: i + 1,
      lengthM: 10,
      bearingDeg,
      route: null,
      since: null,
    }));
    const fieldState = { since: null, radials, wireM: 10 * radials.length };
    return assessSafety(site, { fieldState }).bands[0]?.places[0] as PlaceExposure;
  };

  it('is kept out of along the way of each that hangs within reach, and by the field alone where none comes near', () => {
    expect(raised([5, 1.2], [90, 270])).toMatchObject({
      verdict: 'keep out',
      basis: 'arm’s reach',
      decidingRadial: 1,
      nearestWire: { radial: 1, distanceM: 1.2 },
    });
    expect(raised([-11.2, 0], [90, 270])).toMatchObject({ verdict: 'keep out', decidingRadial: 2 });
    const aside = raised([0, 9], [90, 270]);
    expect(aside).toMatchObject({ decidingRadial: null });
    expect(aside.basis).not.toBe('arm’s reach');
    expect(aside.maxPowerW).toBeGreaterThan(0);
  });

  it('is allowed more where no radial comes near than at the worst bearing, and as little at the tip of one', () => {
    const [aside, underTip] = [raised([0, 9], [90, 270], 3), raised([9.9, 0], [90, 270], 3)];
    const worst = raised([0, 9], [90, null], 3);
    expect(aside.maxPowerW).toBeGreaterThan(10 * worst.maxPowerW);
    expect(underTip.maxPowerW).toBeLessThan(2 * worst.maxPowerW);
  });

  it('is kept out of along the whole of a wire that may hang or lie, since the site says both', () => {
    expect(raised([5, 1.2], [90, 270], 3)).not.toMatchObject({ verdict: 'keep out' });
    expect(raised([5, 1.2], [90, 270], 3, 0.02)).toMatchObject({ verdict: 'keep out', decidingRadial: 1 });
  });

  it('is judged as if one pointed at it where the way of any is not known', () => {
    expect(raised([0, 9], [90, null])).toMatchObject({
      verdict: 'keep out',
      basis: 'arm’s reach',
      decidingRadial: null,
      unplacedMayReach: false,
    });
  });

  it('is out of touch of wire over 2.5 m up, and within touch of wire at just that', () => {
    expect(raised([5, 0.5], [90, 270], 2.5)).toMatchObject({ basis: 'arm’s reach', decidingRadial: 1 });
    expect(raised([5, 0.5], [90, 270], 2.51).basis).not.toBe('arm’s reach');
    expect(raised([0, 9], [90, null], 2.5).basis).toBe('arm’s reach');
    expect(raised([0, 9], [90, null], 2.51).basis).not.toBe('arm’s reach');
  });
});
