import { describe, expect, it } from 'vitest';
import { diagnose } from '../../../../src/core/drift/diagnosis.ts';
import type { MeasuredVisit } from '../../../../src/core/record.ts';
import type { Site } from '../../../../src/core/site.ts';
import { createSweep } from '../../../../src/core/sweep/sweep.ts';
import { grid } from '../../../support/antenna-model.ts';
import { siteOf } from '../../../support/drift/site-of.ts';

const SITE = siteOf({ heightM: 10, diameterM: 0.025, count: 24, lengthM: 6, radialDiameterM: 0.002 });

function visitOf(f: Float64Array, resistanceOhm: (f: number) => number, slopeOhm = 350): MeasuredVisit {
  const shot = createSweep({
    frequencyHz: f,
    resistanceOhm: f.map(resistanceOhm),
    reactanceOhm: f.map((hz) => slopeOhm * (hz / 7.1e6 - 7.1e6 / Math.max(1e5, hz))),
  });
  return { label: 'odd', time: null, shots: [shot], referenceLoad: [] };
}

function diagnoseTwo(before: MeasuredVisit, after: MeasuredVisit, site: Site | null = SITE) {
  const diagnosis = diagnose({
    before: [before],
    after: [after],
    referenceBefore: [],
    referenceAfter: [],
    site,
  });
  for (const { probability, estimate } of diagnosis.causes) {
    expect(Number.isFinite(probability)).toBe(true);
    if (estimate !== null) expect(Number.isFinite(estimate.value + estimate.expandedUncertainty)).toBe(true);
  }
  return diagnosis.causes;
}

const BAND = grid(6.9e6, 7.3e6, 51);
const constant = (ohm: number) => () => ohm;

describe('odd sweeps get an answer of finite figures', () => {
  it.each([
    ['two points', grid(7e6, 7.2e6, 2), 40, 44],
    ['a sweep from 0 Hz far past the antenna', grid(0, 60e6, 401), 40, 44],
    ['a negative resistance', BAND, -3, -1],
    ['nearly open', BAND, 1e7, 40],
  ])('%s', (_, f, before, after) => {
    diagnoseTwo(visitOf(f, constant(before)), visitOf(f, constant(after)));
    diagnoseTwo(visitOf(f, constant(before)), visitOf(f, constant(after)), null);
  });

  it.each([0, 1, null])('radials counted %s', (count) => {
    const site = { ...SITE, radials: { ...(SITE.radials as NonNullable<Site['radials']>), count } };
    const causes = diagnoseTwo(visitOf(BAND, constant(40)), visitOf(BAND, constant(44)), site);
    expect(causes[0]?.cause).toBe('series-joint');
  });

  it('an antenna near a half wave, which the model cannot read', () => {
    const site = { ...SITE, antenna: { ...SITE.antenna, heightM: 20 } };
    diagnoseTwo(visitOf(BAND, constant(1500), -900), visitOf(BAND, constant(1400), -900), site);
  });
});

describe('equal sweeps', () => {
  it('show no change, of an antenna or of a dummy load', () => {
    const antenna = visitOf(BAND, constant(40));
    expect(diagnoseTwo(antenna, antenna)[0]?.cause).toBe('none');
    const load = visitOf(BAND, constant(50), 0);
    expect(diagnoseTwo(load, load)[0]?.cause).toBe('none');
  });
});

describe('sweeps of other grids', () => {
  it('are brought to common bins, narrow against wide too', () => {
    const wide = visitOf(grid(3e6, 12e6, 201), constant(40));
    const narrow = visitOf(grid(6.95e6, 7.28e6, 77), constant(44));
    expect(diagnoseTwo(wide, narrow)[0]?.cause).toBe('series-joint');
  });

  it('that share nothing are refused', () => {
    const here = visitOf(BAND, constant(40));
    const there = visitOf(grid(1.8e6, 2e6, 51), constant(40));
    expect(() => diagnoseTwo(here, there)).toThrow('share no frequencies');
  });
});
