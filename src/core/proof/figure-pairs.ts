import type { UnitSystem } from '../quantity.ts';
import type { FeedLine } from '../sweep/feed-line.ts';
import type { BandReading } from './band-reading.ts';
import type { Measure } from './figures.ts';
import { lineChanges } from './line-changes.ts';
import type { BeforeAfter, Pair, Share } from './pair.ts';
import { type ChosenErrors, choosePairErrors } from './pair-errors.ts';
import { type ConditionedVisit, soilChange } from './soil-change.ts';

/** The figures of two sides as pairs, with all that makes their differences uncertain. */
export interface FigurePairs {
  soilNotes(units: UnitSystem): readonly string[];
  of(measure: Measure): { readonly pair: Pair; readonly chosen: ChosenErrors };
}

/**
 * Pairs the figures of two sides that were read: the one way in which a difference comes about, whoever asks for it.
 *
 * @param line - through which the sweeps were moved to the feed point; null where none was
 */
export function figurePairs(
  sides: BeforeAfter<readonly Share<ConditionedVisit>[]>,
  { states, knowledge }: Pick<BandReading, 'states' | 'knowledge'>,
  line: FeedLine | null,
): FigurePairs {
  const changes = lineChanges(sides, line);
  const soil = soilChange(sides, states);
  return {
    soilNotes: soil.notes,
    of: (measure) => {
      const chosen = choosePairErrors(measure, sides, knowledge, soil.explained(measure));
      const pair = {
        measure,
        sides: chosen.sides,
        errors: chosen.errors,
        common: changes.map((change) => change(measure)),
        correction: soil.correction(measure),
      };
      return { pair, chosen };
    },
  };
}
