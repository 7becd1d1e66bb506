import { resonanceFor } from '../../src/core/proof/figures.ts';
import type { Band } from '../../src/core/sweep/bands.ts';
import type { Resonance } from '../../src/core/sweep/resonance.ts';
import type { AnySweep } from '../../src/core/sweep/sweep.ts';
import { dipAround, summariseBand, swrDips } from '../../src/core/sweep/swr-summary.ts';

/** What is told of one sweep in a band, or in all that was swept; null for what cannot be had. */
export interface SweepFigures {
  readonly leastSwr: number | null;
  readonly leastSwrHz: number | null;
  readonly worstSwr: number | null;
  /** The crossing of X that `compare` would take. */
  readonly resonance: Resonance | null;
  /** Width of the dip at or under SWR 2 round the least SWR. */
  readonly swr2BandwidthHz: number | null;
  /** True where the sweep ends inside that dip: it is at least so wide. */
  readonly swr2OpenEnded: boolean;
}

/** Figures that were told once, by sweep and band. */
const known = new WeakMap<AnySweep, Map<string, SweepFigures>>();

export function figuresIn(sweep: AnySweep, band: Band | null): SweepFigures {
  const ofSweep = known.get(sweep) ?? new Map<string, SweepFigures>();
  known.set(sweep, ofSweep);
  const name = band?.band ?? '';
  const found = ofSweep.get(name) ?? readFigures(sweep, band);
  ofSweep.set(name, found);
  return found;
}

export function resonanceIn(sweep: AnySweep, band: Band | null): Resonance | null {
  return resonanceFor(sweep, band ?? wholeOf(sweep));
}

function readFigures(sweep: AnySweep, band: Band | null): SweepFigures {
  const summary = summariseBand(sweep, band ?? wholeOf(sweep));
  const leastSwrHz = summary?.bestSwrHz ?? null;
  const dip = leastSwrHz === null ? null : dipAround(swrDips(sweep, 2), leastSwrHz);
  return {
    leastSwr: summary?.bestSwr ?? null,
    leastSwrHz,
    worstSwr: summary?.worstSwr ?? null,
    resonance: resonanceIn(sweep, band),
    swr2BandwidthHz: dip === null ? null : dip.toHz - dip.fromHz,
    swr2OpenEnded: dip !== null && (dip.openBelow || dip.openAbove),
  };
}

function wholeOf({ frequencyHz }: AnySweep): Band {
  return {
    band: 'all that was swept',
    fromHz: frequencyHz[0] as number,
    toHz: frequencyHz[frequencyHz.length - 1] as number,
  };
}
