import { describe, expect, it } from 'vitest';
import { radialsHang } from '../../../../src/core/layout/raised.ts';
import type { FieldState, Radial } from '../../../../src/core/record.ts';
import { siteRadiator } from '../../../../src/core/safety/site-radiator.ts';
import { expectClose } from '../../../support/expect-close.ts';
import { safetySite, withAntenna } from '../../../support/safety-site.ts';

function lying(...radials: Partial<Radial>[]): FieldState {
  const whole = radials.map((radial, i) => ({
    number: i + 1,
    lengthM: 5,
    bearingDeg: null,
    route: null,
    since: null,
    ...radial,
  }));
  return { since: null, radials: whole, wireM: 0 };
}

describe('siteRadiator', () => {
  it('never guesses the height of the antenna', () => {
    try {
      siteRadiator(withAntenna({ heightM: null }), null);
      expect.unreachable();
    } catch (error) {
      expect(error).toMatchObject({ code: 'site-needs-height', place: { field: 'antenna.height' } });
    }
  });

  it('says what it takes for a thickness or a base height that is not given', () => {
    const { assumptions, at } = siteRadiator(withAntenna({ diameterM: null, baseHeightM: null }), null);
    expect(assumptions.join(' ')).toMatch(/antenna.diameter.*antenna.baseHeight/u);
    expect(at(7e6)).toMatchObject([{ radiusM: 1e-3, baseHeightM: 0, elevated: null }]);
  });

  it('takes radials from the journal before the site', () => {
    const radiator = siteRadiator(safetySite(), lying({ lengthM: 4 }, { lengthM: 7 }));
    expect(radiator.grounded).toMatchObject({ count: 2, lengthM: 7 });
  });

  it('knows the way of radials that have a route or a bearing, and counts the others', () => {
    const { knownWires, unplacedCount } = siteRadiator(
      safetySite(),
      lying(
        { bearingDeg: 90 },
        {
          route: [
            [0, 0],
            [3, -1],
          ],
        },
        {},
      ),
    );
    expect([knownWires.length, unplacedCount]).toEqual([2, 1]);
    const end = knownWires[0]?.points.at(-1);
    expectClose(end?.[0], 5, { absolute: 1e-12 });
    expectClose(end?.[1], 0, { absolute: 1e-12 });
    expect(knownWires[1]?.points).toEqual([
      [0, 0],
      [3, -1],
    ]);
    expect(siteRadiator(safetySite(), null)).toMatchObject({ knownWires: [], unplacedCount: 24 });
    expect(siteRadiator(safetySite({ radials: null }), null).unplacedCount).toBeNull();
  });

  it('takes radials up with a raised base as the plan does', () => {
    const { radials } = safetySite();
    const hung = radials === null ? null : { ...radials, depthM: null };
    const up = siteRadiator(withAntenna({ baseHeightM: 3 }, { radials: hung }), null);
    expect(up.at(7e6)).toMatchObject([
      { heightM: 10.1, baseHeightM: 3, elevated: { count: 24, lengthM: 6 } },
    ]);
    expect(up).toMatchObject({ radialHeights: { fromM: 3, toM: 3 }, mayHang: true, grounded: null });
    expect(up.touchableAlong).toBe(false);
  });

  it('takes them both in the air and on the ground where a depth speaks against the raised base', () => {
    const both = siteRadiator(withAntenna({ baseHeightM: 3 }), null);
    expect(both.at(7e6)).toMatchObject([
      { heightM: 10.1, baseHeightM: 3, elevated: { count: 24, lengthM: 6 } },
      { heightM: 13.1, baseHeightM: 0, elevated: null },
    ]);
    expect(both).toMatchObject({ radialHeights: { fromM: 0, toM: 3 }, touchableAlong: true });
    expect(both.grounded).toMatchObject({ count: 24, lengthM: 6 });
    expect(both.assumptions.join(' ')).toContain('judged in the air and on the ground, and the worse counts');
  });

  it('lays the counterpoise of a half wave on the ground as the plan does, the lead down to it being element', () => {
    for (const depthM of [null, 0, 0.02]) {
      const { radials } = safetySite();
      const half = withAntenna(
        { kind: 'half-wave', heightM: 20, baseHeightM: 3 },
        { radials: radials === null ? null : { ...radials, lengthM: 2, depthM } },
      );
      expect(radialsHang(half.antenna)).toBe(false);
      const radiator = siteRadiator(half, null);
      expect(radiator.at(7e6)).toMatchObject([{ heightM: 23, baseHeightM: 0, elevated: null }]);
      expect(radiator.grounded).toMatchObject({ count: 24, lengthM: 2 });
      expect(radiator.assumptions.join(' ')).toContain(
        'the lead from the raised base down to the radials is taken as part of the element',
      );
      // Nobody says whether it lies: it may be touched where it would hang.
      expect(radiator.mayHang).toBe(depthM === null);
      expect(radiator.radialHeights).toEqual({ fromM: 0, toM: depthM === null ? 3 : 0 });
    }
  });

  it('takes raised radials in a bunch as the fewer that carry as much', () => {
    const over = (...bearings: number[]) =>
      siteRadiator(
        withAntenna({ baseHeightM: 3 }, { radials: null }),
        lying(...bearings.map((bearingDeg) => ({ bearingDeg }))),
      ).at(7e6)[0]?.elevated?.spreadOver;
    expect(over(0, 90, 180, 270)).toBe(4);
    expect(over(3, 88, 184, 272)).toBe(4);
    expect(over(350, 0, 10, 20)).toBe(1);
    expect(over(0, 10, 180, 190)).toBe(2);
    expect(over(0, 90)).toBe(1);
  });

  it('hangs the radials from a base of half a metre on, as the plan does', () => {
    for (const baseHeightM of [0, 0.49, 0.5, 3]) {
      for (const kind of ['quarter-wave', 'other'] as const) {
        const site = withAntenna({ kind, baseHeightM });
        expect(radialsHang(site.antenna)).toBe(baseHeightM >= 0.5);
        expect(siteRadiator(site, null).elevated).toBe(baseHeightM >= 0.5);
      }
    }
  });

  it('takes two quarter-wave radials where a raised base has none given, and says so', () => {
    const radiator = siteRadiator(withAntenna({ baseHeightM: 3 }, { radials: null }), null);
    expect(radiator.at(7.1e6)[0]?.elevated?.count).toBe(2);
    expectClose(radiator.at(7.1e6)[0]?.elevated?.lengthM, 71.3 / 7.1, { relative: 1e-3 });
    expect(radiator.assumptions.join(' ')).toContain('taken as 2');
  });
});
