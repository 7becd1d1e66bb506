import {
  type BandComparison,
  type BandQuestion,
  type ComparisonContext,
  compareVisits,
} from '../../src/core/proof/compare-visits.ts';
import type { ComparedVisit } from '../../src/core/proof/compared-visit.ts';
import { NO_CONDITIONS } from '../../src/core/proof/conditions.ts';
import type { Share } from '../../src/core/proof/pair.ts';
import { createRandomSource, type RandomSource } from '../../src/core/proof/random.ts';
import type { AnySweep, Sweep } from '../../src/core/sweep/sweep.ts';
import { grid, seriesCircuit } from './antenna-model.ts';
import { measuredBy, randomInstrument } from './simulated-instrument.ts';

/** The 40 m band of region 1. */
export const BAND = { band: '40m', fromHz: 7e6, toHz: 7.2e6 };

export const GRID: Float64Array = grid(6.6e6, 7.7e6, 56);

/** A vertical near 40 m: R as given, the same element. */
export function vertical(
  resistanceOhm: number,
  resonanceHz = 7.1e6,
  frequencyHz: Float64Array = GRID,
): Sweep {
  return seriesCircuit({ resistanceOhm, resonanceHz, qualityFactor: 400 / resistanceOhm }, frequencyHz);
}

/** A visit of loose sweeps. */
export function visitOf(shots: readonly AnySweep[], more: Partial<ComparedVisit> = {}): ComparedVisit {
  return { label: 'visit', time: null, shots, referenceLoad: [], conditions: NO_CONDITIONS, ...more };
}

/** A side of one visit. */
export function side(visit: ComparedVisit): Share<ComparedVisit>[] {
  return [{ visit, share: 1 }];
}

/** A visit as an instrument with errors would have measured it. */
export function measuredVisitOf(
  resistanceOhm: number,
  random: RandomSource = createRandomSource(1),
  options: { shots?: number; resonanceHz?: number; grid?: Float64Array } = {},
): ComparedVisit {
  const { shots = 3, resonanceHz = 7.1e6 } = options;
  const instrument = randomInstrument(random, { standard: 0.003, perShot: 0.001, perPoint: 0.0005 });
  const truth = vertical(resistanceOhm, resonanceHz, options.grid);
  return visitOf(Array.from({ length: shots }, () => measuredBy(instrument, truth, random)));
}

/** Two sides compared in the 40 m band, by one who knows nothing else unless given. */
export function compareSides(
  sides: BandQuestion['sides'],
  known: Partial<BandQuestion & ComparisonContext> = {},
): BandComparison {
  const { antennaKind = null, instrument = null, units, ...question } = known;
  const asked = { band: BAND, sides, states: [], line: null, ...question };
  return compareVisits([asked], { antennaKind, instrument, units })[0] as BandComparison;
}
