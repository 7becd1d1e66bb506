import type { BandComparison, MeasureComparison } from '../core/proof/compare-visits.ts';
import { comparisonNotes, TABLE_FOOT } from '../core/proof/comparison-notes.ts';
import type { OverallVerdict } from '../core/proof/overall.ts';
import { SIDES } from '../core/proof/pair.ts';
import type { StrengthComparison } from '../core/proof/strength.ts';
import type { ComparisonAsked } from './compared-sides.ts';

/** All that `compare` found. */
export interface Found {
  readonly asked: ComparisonAsked;
  /** In the order of the questions. */
  readonly comparisons: readonly BandComparison[];
  readonly strength: StrengthComparison | null;
  readonly overall: OverallVerdict;
}

/** The JSON document of `compare`: the first band on top, all of them in `bands` where there are several. */
export function comparisonJson(found: Found): object {
  const { asked, comparisons, strength, overall } = found;
  const bands = comparisons.map((comparison) => bandJson(comparison, asked));
  return {
    ...bands[0],
    ...(bands.length > 1 ? { bands } : {}),
    ...overall,
    strength,
    sameField: asked.sameField,
    notes: [...(asked.sameField ? [SAME_FIELD] : []), ...notesOf(found), TABLE_FOOT],
  };
}

/** What stands first where nothing was laid or lifted between the sides. */
export const SAME_FIELD =
  'no wire was laid or lifted between these visits: what differs is drift of the soil, the instrument or a joint, and never an improvement by wires; diagnose weighs which';

/** Every note once, those of the question first; what is said of some bands only names its band. */
export function notesOf({ asked, comparisons, strength }: Omit<Found, 'overall'>): string[] {
  const each = comparisons.map((comparison) => ({
    band: comparison.band.band,
    notes: comparisonNotes(comparison),
  }));
  const ofBands = each.flatMap(({ band, notes }) =>
    notes.map((note) => (each.every((other) => other.notes.includes(note)) ? note : `${band}: ${note}`)),
  );
  return [...new Set([...asked.notes, ...ofBands, ...(strength?.notes ?? [])])];
}

function bandJson({ band, covered, measures, sides }: BandComparison, { visits }: ComparisonAsked) {
  const [quality] = measures.filter(({ measure }) => measure === 'qualityFactor').map(measureJson);
  const [before, after] = SIDES.map((side) =>
    sides[side].map(({ visit: { label, shotCount } }) => {
      const known = visits.find((visit) => visit.label === label);
      const logged =
        known === undefined
          ? {}
          : {
              visit: known.visit,
              time: known.time,
              radials: known.state.radials.length,
              wireM: known.state.wireM,
            };
      return { label, shots: shotCount, ...logged };
    }),
  );
  return {
    band: band.band,
    coveredHz: covered === null ? null : [covered.fromHz, covered.toHz],
    sides: { before, after },
    measures: measures.filter(({ measure }) => measure !== 'qualityFactor').map(measureJson),
    qualityFactor: quality,
  };
}

function measureJson({ direction, wouldShow, ...figures }: MeasureComparison): object {
  return { ...figures, meaning: direction.meaning, ...wouldShow };
}
