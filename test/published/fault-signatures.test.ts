/**
 * What faults do at the feed point.
 *
 * Source: the series circuit: a common joint of Rc ohms in series with everything, Rr 36.5, Rg 5. Status: computed, an
 * identity.
 * Source: A. D. Yaghjian and S. R. Best, "Impedance, Bandwidth, and Q of Antennas", IEEE Trans. AP 53(4), 1298–1324,
 * 2005, eq. (96) at resonance: R·Q is constant under pure series resistance. Status: published.
 * Source: handbook form of line loss: a load of SWR 2.0 through 3 dB reads 1.401. Status: computed.
 * Source: surface-impedance method (F. R. Abbott 1952; J. R. Wait and W. A. Pope 1954): signatures on 40 m, N 24 × 6 m,
 * element of 10 m, by an independent program. Status: computed.
 *
 * Tolerance: half of the last digit of the table. The thickness of that element is not told, so the bands of the
 * signatures get a margin of a fifth of the largest figure.
 */
import { describe, expect, it } from 'vitest';
import { differentiate } from '../../src/core/drift/differential.ts';
import { feedPointImpedanceOhm } from '../../src/core/ground/feed-point.ts';
import { uniformField } from '../../src/core/ground/radial-field.ts';
import type { MeasuredVisit } from '../../src/core/record.ts';
import { feedLineOf, matchedLossDb, throughLine } from '../../src/core/sweep/feed-line.ts';
import { reflectionSize, swrOfReflection } from '../../src/core/sweep/reflection.ts';
import { findResonances } from '../../src/core/sweep/resonance.ts';
import { createSweep } from '../../src/core/sweep/sweep.ts';
import { grid, seriesCircuit } from '../support/antenna-model.ts';
import { siteOf } from '../support/drift/site-of.ts';
import { expectClose } from '../support/expect-close.ts';

describe('a joint in the common path', () => {
  const healthyOhm = 41.5;
  const f = grid(6.9e6, 7.3e6, 81);
  // Rc, R, efficiency, Q over the healthy one, SWR
  it.each([
    [0, 41.5, 0.88, 1, 1.205],
    [2, 43.5, 0.839, 0.954, 1.149],
    [5, 46.5, 0.785, 0.892, 1.075],
    [10, 51.5, 0.709, 0.806, 1.03],
    [20, 61.5, 0.593, 0.675, 1.23],
  ])('of %d ohm makes R %d, and first improves the SWR', (joint, r, efficiency, q, swr) => {
    const circuit = { resistanceOhm: r, resonanceHz: 7.1e6, qualityFactor: (9 * healthyOhm) / r };
    const [resonance] = findResonances(seriesCircuit(circuit, f));
    expectClose(resonance?.frequencyHz, 7.1e6, { absolute: 1 });
    expectClose(resonance?.resistanceOhm, healthyOhm + joint, { absolute: 1e-6 });
    expectClose((resonance?.qualityFactor ?? 0) / 9, q, { absolute: 0.001 });
    expectClose((resonance?.qualityFactor ?? 0) * r, 9 * healthyOhm, { relative: 1e-3 });
    expectClose(36.5 / r, efficiency, { absolute: 0.00051 });
    expectClose(swrOfReflection(reflectionSize(r, 0, 50)), swr, { absolute: 0.00051 });
  });
});

it('a line of 3 dB makes a load of SWR 2.0 read 1.401', () => {
  const site = { type: 'RG-58', velocityFactor: null, impedanceOhm: null, loss: [] };
  const perMetreDb = matchedLossDb(feedLineOf({ ...site, lengthM: 1 }), 7.1e6);
  const line = feedLineOf({ ...site, lengthM: 3 / perMetreDb });
  const seen = throughLine({ re: 100, im: 0 }, line, 7.1e6, 'shack');
  expectClose(swrOfReflection(reflectionSize(seen?.re ?? 0, seen?.im ?? 0, 50)), 1.401, { absolute: 0.0005 });
});

interface State {
  readonly count?: number;
  readonly conductivity?: number;
  readonly permittivity?: number;
  readonly heightM?: number;
  readonly jointOhm?: number;
}

function impedanceAt(frequencyHz: number, state: State) {
  const { re, im } = feedPointImpedanceOhm({
    monopole: { heightM: state.heightM ?? 10, radiusM: 0.0125 },
    soil: { conductivitySPerM: state.conductivity ?? 0.005, relativePermittivity: state.permittivity ?? 13 },
    field: uniformField(state.count ?? 24, 6, 0.001),
    frequencyHz,
  });
  return { re: re + (state.jointOhm ?? 0), im };
}

function visitOf(state: State): MeasuredVisit {
  const frequencyHz = grid(6.8e6, 7.5e6, 101);
  const z = Array.from(frequencyHz, (f) => impedanceAt(f, state));
  const shot = createSweep({
    frequencyHz,
    resistanceOhm: Float64Array.from(z, ({ re }) => re),
    reactanceOhm: Float64Array.from(z, ({ im }) => im),
  });
  return { label: 'computed', time: null, shots: [shot], referenceLoad: [] };
}

const FAULTS = [
  {
    name: '8 of 24 radials lost',
    cause: 'lost-radials',
    state: { count: 16 },
    dr: [1.8, 2.7],
    dx: [2.3, 2.3],
    amplitude: 8,
    absolute: 1.5,
  },
  {
    name: 'soil gone drier',
    cause: 'soil-moisture',
    state: { conductivity: 0.003, permittivity: 9 },
    dr: [0.4, 0.8],
    dx: [-1.5, -1.1],
    amplitude: Math.log(0.6),
    absolute: 0.1,
  },
  {
    name: 'an element 1 % longer',
    cause: 'element-length',
    state: { heightM: 10.1 },
    dr: [0.6, 1.1],
    dx: [5, 6.1],
    amplitude: 1,
    absolute: 0.05,
  },
  {
    name: 'a joint of 3 ohm',
    cause: 'series-joint',
    state: { jointOhm: 3 },
    dr: [3, 3],
    dx: [0, 0],
    amplitude: 3,
    absolute: 0.3,
  },
] as const;

describe.each(FAULTS)('$name', ({ cause, state, dr, dx, amplitude, absolute }) => {
  it('changes R and X as the independent program has it', () => {
    const margin = 0.2 * Math.max(...[...dr, ...dx].map(Math.abs));
    for (const f of [6.8e6, 7.1e6, 7.5e6]) {
      const [before, after] = [impedanceAt(f, {}), impedanceAt(f, state)];
      expect(after.re - before.re).toBeGreaterThan(dr[0] - margin);
      expect(after.re - before.re).toBeLessThan(dr[1] + margin);
      expect(after.im - before.im).toBeGreaterThan(dx[0] - margin);
      expect(after.im - before.im).toBeLessThan(dx[1] + margin);
    }
  });

  it('is named, with its size', () => {
    const site = siteOf({ heightM: 10, diameterM: 0.025, count: 24, lengthM: 6, radialDiameterM: 0.002 });
    const { causes } = differentiate({
      before: [visitOf({}), visitOf({ conductivity: 0.0051 }), visitOf({ conductivity: 0.0049 })],
      after: [visitOf(state)],
      referenceBefore: [],
      referenceAfter: [],
      site,
    });
    expect(causes[0]?.cause).toBe(cause);
    expectClose(causes[0]?.amplitude.mean, amplitude, { absolute });
  });
});
