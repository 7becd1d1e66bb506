/**
 * Coverage by simulation: 2,000 pairs of visits, each with the errors of one calibration (directivity, tracking and
 * source match), of each shot and of each point. The truth of every pair is known, and in half of them nothing changed.
 */
import { describe, expect, it } from 'vitest';
import type { Measure } from '../../src/core/proof/figures.ts';
import { firstOrder } from '../../src/core/proof/first-order.ts';
import { type FigureDifference, NO_CORRECTION } from '../../src/core/proof/pair.ts';
import { choosePairErrors } from '../../src/core/proof/pair-errors.ts';
import { createRandomSource } from '../../src/core/proof/random.ts';
import { directionOf, judgeTogether } from '../../src/core/proof/verdict.ts';
import { type VisitInBand, visitInBand } from '../../src/core/proof/visit-in-band.ts';
import type { Sweep } from '../../src/core/sweep/sweep.ts';
import { grid, seriesCircuit } from '../support/antenna-model.ts';
import { measuredBy, randomInstrument } from '../support/simulated-instrument.ts';

const PAIRS = 2000;
const STANDARD = 0.005;
const BAND = { band: '40m', fromHz: 7e6, toHz: 7.2e6 };
const FREQUENCIES = grid(6.6e6, 7.7e6, 31);
const KNOWLEDGE = {
  accuracy: { reflection: STANDARD, turnRad: 0, stated: true },
  states: [],
  loadScatter: null,
  loadScatterOfPair: null,
};
const WATCHED = ['resistanceAtResonanceOhm', 'resonanceHz', 'swr2BandwidthHz'] as const;

const random = createRandomSource(20_260_101);

function measured(truth: Sweep): VisitInBand {
  const instrument = randomInstrument(random, { standard: STANDARD, perShot: 0.003, perPoint: 0.001 });
  const shots = Array.from({ length: 3 }, () => measuredBy(instrument, truth, random));
  return visitInBand(shots, BAND, STANDARD);
}

interface Pair {
  readonly same: boolean;
  readonly truth: Readonly<Partial<Record<Measure, number>>>;
  readonly visits: readonly [VisitInBand, VisitInBand];
}

function randomPair(same: boolean): Pair {
  const truth = (resistanceOhm: number, resonanceHz: number): Sweep =>
    seriesCircuit({ resistanceOhm, resonanceHz, qualityFactor: 380 / resistanceOhm }, FREQUENCIES);
  const [r, f] = [30 + 40 * random.uniform(), 7.05e6 + 1e5 * random.uniform()];
  const before = truth(r, f);
  const after = same ? before : truth(r - 8 * random.uniform(), f - 4e4 * random.uniform());
  const [then, now] = [before, after].map((sweep) => visitInBand([sweep], BAND, STANDARD).figures);
  const entries = WATCHED.map((measure) => [measure, (now?.[measure] ?? 0) - (then?.[measure] ?? 0)]);
  return { same, truth: Object.fromEntries(entries), visits: [measured(before), measured(after)] };
}

/** The figures that compare judges together; R by itself would be claimed a little more often. */
const JUDGED = ['resistanceAtResonanceOhm', 'minSwr', 'worstSwr', 'meanReturnLossDb'] as const;

function differenceOf(measure: Measure, { visits }: Pair): FigureDifference | null {
  const [before = [], after = []] = visits.map((visit) => [{ visit, share: 1 }]);
  const { sides, errors } = choosePairErrors(measure, { before, after }, KNOWLEDGE);
  // First order alone: Monte Carlo for each of thousands of pairs would take minutes.
  return firstOrder({ measure, sides, errors, common: [], correction: NO_CORRECTION });
}

describe('2,000 pairs of visits', () => {
  const covered = new Map<Measure, number>();
  let claimed = 0;
  for (let i = 0; i < PAIRS; i++) {
    const pair = randomPair(i % 2 === 0);
    for (const measure of WATCHED) {
      const { value, expandedUncertainty } = differenceOf(measure, pair)?.difference ?? {};
      const off = Math.abs((value ?? Number.NaN) - (pair.truth[measure] ?? Number.NaN));
      if (off <= (expandedUncertainty ?? 0)) covered.set(measure, (covered.get(measure) ?? 0) + 1);
    }
    if (!pair.same) continue;
    const [resistance] = judgeTogether(
      JUDGED.map((measure) => ({
        difference: differenceOf(measure, pair),
        direction: directionOf(measure, { kind: null, series: true, plane: 'feedpoint' }),
        claimable: true,
      })),
    );
    if (resistance?.verdict !== 'not shown') claimed++;
  }

  it.each(WATCHED)('the interval of %s holds the truth in 93 to 98 percent of them', (measure) => {
    const share = (covered.get(measure) ?? 0) / PAIRS;
    expect(share).toBeGreaterThanOrEqual(0.93);
    expect(share).toBeLessThanOrEqual(0.98);
  });

  it('where nothing changed, R is called improved or worse in at most 5 %', () => {
    expect(claimed / (PAIRS / 2)).toBeLessThanOrEqual(0.05);
  });

  it('where R fell by more than 6 ohm it is nearly always shown', () => {
    let shown = 0;
    for (let i = 0; i < 100; i++) {
      const truth = (r: number): Sweep =>
        seriesCircuit({ resistanceOhm: r, resonanceHz: 7.1e6, qualityFactor: 380 / r }, FREQUENCIES);
      const pair = { same: false, truth: {}, visits: [measured(truth(50)), measured(truth(44))] } as const;
      const found = differenceOf('resistanceAtResonanceOhm', pair)?.difference;
      if ((found?.value ?? 0) < -(found?.expandedUncertainty ?? 9)) shown++;
    }
    expect(shown).toBeGreaterThan(95);
  });
});
