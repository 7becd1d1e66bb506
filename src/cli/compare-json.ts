import type { BandComparison, MeasureComparison } from '../core/proof/compare-visits.ts';
import { comparisonNotes } from '../core/proof/comparison-words.ts';
import type { OverallVerdict } from '../core/proof/overall.ts';
import type { StrengthComparison } from '../core/proof/strength.ts';
import type { ComparedSides } from './compared-sides.ts';

/** All that `compare` found. */
export interface Found {
  readonly asked: ComparedSides;
  readonly comparisons: readonly BandComparison[];
  readonly strength: StrengthComparison | null;
  readonly overall: OverallVerdict;
}

/** The JSON document of `compare`: the first band on top, all of them in `bands` where there are several. */
export function comparisonJson({ asked, comparisons, strength, overall }: Found): object {
  const bands = comparisons.map(bandJson);
  return {
    ...bands[0],
    ...(bands.length > 1 ? { bands } : {}),
    ...overall,
    strength,
    sides: {
      before: asked.sides.before.map(({ visit }) => ({ label: visit.label, shots: visit.shots.length })),
      after: asked.sides.after.map(({ visit }) => ({ label: visit.label, shots: visit.shots.length })),
    },
    notes: notesOf({ asked, comparisons, strength }),
  };
}

/** Every note once, those of the question first. */
export function notesOf({ asked, comparisons, strength }: Omit<Found, 'overall'>): string[] {
  return [...new Set([...asked.notes, ...comparisons.flatMap(comparisonNotes), ...(strength?.notes ?? [])])];
}

function bandJson({ band, covered, measures }: BandComparison) {
  const [quality] = measures.filter(({ measure }) => measure === 'qualityFactor').map(measureJson);
  return {
    band: band.band,
    coveredHz: covered === null ? null : [covered.fromHz, covered.toHz],
    measures: measures.filter(({ measure }) => measure !== 'qualityFactor').map(measureJson),
    qualityFactor: quality,
  };
}

function measureJson({ direction, wouldShow, ...figures }: MeasureComparison): object {
  return { ...figures, meaning: direction.meaning, ...wouldShow };
}
