import { coverage } from '../proof/coverage.ts';
import { resonanceFor } from '../proof/figures.ts';
import type { Band } from '../sweep/bands.ts';
import type { Sweep } from '../sweep/sweep.ts';
import { bestSwr } from '../sweep/swr-summary.ts';
import { type CoarseCurve, coarseCurve, meanCurve } from './coarse-curve.ts';
import { meanFeatures, type VisitFeatures } from './visit-features.ts';

/** What is watched of one band. */
export interface BandFigures {
  readonly features: VisitFeatures;
  readonly curve: CoarseCurve | null;
}

/** What one sweep shows of a band: features at its X = 0 in or near the band, and the rough curve over the band. */
export function bandFigures(sweep: Sweep, band: Band): BandFigures {
  const resonance = resonanceFor(sweep, band);
  const covered = coverage(band, [sweep]);
  return {
    features: {
      resistanceAtResonanceOhm: resonance?.resistanceOhm ?? null,
      resonanceHz: resonance?.frequencyHz ?? null,
      qualityFactor: resonance?.qualityFactor ?? null,
      minSwr: bestSwr(sweep, sweep.referenceOhm, band.fromHz, band.toHz).swr,
    },
    curve: covered === null ? null : coarseCurve(sweep, covered),
  };
}

/** The mean over the shots of a visit. */
export function meanFigures(shots: readonly BandFigures[]): BandFigures {
  const [first] = shots;
  if (first !== undefined && shots.length === 1) return first;
  return {
    features: meanFeatures(shots.map(({ features }) => features)),
    curve: meanCurve(shots.map(({ curve }) => curve)),
  };
}
