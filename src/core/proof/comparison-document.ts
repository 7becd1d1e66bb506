import type { FieldState } from '../record.ts';
import type { BandComparison, MeasureComparison } from './compare-visits.ts';
import { comparisonNotes, TABLE_FOOT } from './comparison-notes.ts';
import { type OverallVerdict, overallVerdict } from './overall.ts';
import { SIDES } from './pair.ts';
import type { StrengthComparison } from './strength.ts';
import { compareStrengthIn, type StrengthSides } from './strength-sides.ts';

/** A visit of a logbook by its number, and the field it was made over. */
interface NumberedVisit {
  readonly label: string;
  readonly visit: number;
  readonly time: string;
  readonly state: Pick<FieldState, 'radials' | 'wireM'>;
}

/** All that a comparison found. */
export interface Found {
  readonly asked: {
    /** The visits of a logbook on either side; empty for loose files. */
    readonly visits: readonly NumberedVisit[];
    /** True where no wire was laid or lifted between the sides, so that nothing can have been improved by wires. */
    readonly sameField: boolean;
    /** The sides are the new wires disconnected (before) and connected (after). */
    readonly isReversal: boolean;
    /** Oddities of the question itself. */
    readonly notes: readonly string[];
  };
  /** In the order of the questions, at least one. */
  readonly bands: readonly BandAnswer[];
}

/** What was found of one band: by the sweeps, by received strength where it was read there, and by both together. */
export interface BandAnswer {
  readonly comparison: BandComparison;
  readonly strength: StrengthComparison | null;
  readonly overall: OverallVerdict;
}

/**
 * Answers each band by its sweeps and its received levels.
 *
 * @param assumedBand - see {@link compareStrengthIn}
 */
export function answerBands(
  comparisons: readonly BandComparison[],
  levels: StrengthSides | null,
  assumedBand: string,
): BandAnswer[] {
  return comparisons.map((comparison) => {
    const strength = compareStrengthIn(comparison.band.band, levels, assumedBand);
    return { comparison, strength, overall: overallVerdict(comparison, strength) };
  });
}

/** The JSON document of `compare`: the first band on top, all of them in `bands` where there are several. */
export function comparisonJson(found: Found): object {
  const { asked } = found;
  const bands = found.bands.map((answer) => bandJson(answer, asked));
  return {
    ...bands[0],
    ...(bands.length > 1 ? { bands } : {}),
    sameField: asked.sameField,
    notes: [...(asked.sameField ? [SAME_FIELD] : []), ...notesOf(found), TABLE_FOOT],
  };
}

/** What stands first where nothing was laid or lifted between the sides. */
export const SAME_FIELD =
  'no wire was laid or lifted between these visits: what differs is drift of the soil, the instrument or a joint, and never an improvement by wires; diagnose weighs which';

/** What is said where the sides stand against the order of time. */
export const MEASURED_LATER =
  'the side called before was measured later: the differences are after minus before all the same';

/** Every note once, those of the question first; what is said of some bands only names its band. */
export function notesOf({ asked, bands }: Found): string[] {
  const each = bands.map(({ comparison, strength }) => ({
    band: comparison.band.band,
    notes: [...comparisonNotes(comparison, asked.isReversal), ...(strength?.notes ?? [])],
  }));
  const ofBands = each.flatMap(({ band, notes }) =>
    notes.map((note) => (each.every((other) => other.notes.includes(note)) ? note : `${band}: ${note}`)),
  );
  return [...new Set([...asked.notes, ...ofBands])];
}

function bandJson({ comparison, strength, overall }: BandAnswer, { visits }: Found['asked']) {
  const { band, covered, measures, sides } = comparison;
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
    ...overall,
    strength,
  };
}

function measureJson({ direction, wouldShow, ...figures }: MeasureComparison): object {
  return { ...figures, meaning: direction.meaning, ...wouldShow };
}
