import type { Band } from '../sweep/bands.ts';
import type { FeedLine } from '../sweep/feed-line.ts';
import { type ComparisonContext, compareVisits, measureOf } from './compare-visits.ts';
import { inEqualParts } from './compared-visit.ts';
import type { ProgressStep, StepInput } from './progress-steps.ts';
import type { Verdict } from './verdict.ts';

/** The two field states that the last step lies between: the last ones that show R. */
export interface LastStep {
  /** Indices of the states. */
  readonly before: number;
  readonly after: number;
}

/** Null where fewer than two states show R. */
export function lastStepOf(steps: readonly ProgressStep[]): LastStep | null {
  const shown = steps.flatMap(({ point }, i) => (point === null ? [] : [i]));
  const [before, after] = shown.slice(-2);
  return before === undefined || after === undefined ? null : { before, after };
}

/**
 * What `compare` says of R over the last step, by the same way of judging: all figures of the two states together.
 *
 * @param inputs - the measured field states, those of the step among them
 * @returns null where R does not tell loss, or nothing is known of how uncertain it is
 */
export function lastStepVerdict(
  { before, after }: LastStep,
  inputs: readonly StepInput[],
  band: Band,
  context: ComparisonContext & { readonly line: FeedLine | null },
): Verdict | null {
  const visitsOf = (index: number): StepInput['visits'] => inputs[index]?.visits ?? [];
  const [comparison] = compareVisits(
    [
      {
        band,
        line: context.line,
        states: inputs.map(({ visits }) => visits),
        sides: { before: inEqualParts(visitsOf(before)), after: inEqualParts(visitsOf(after)) },
      },
    ],
    context,
  );
  if (comparison === undefined) return null;
  const { direction, difference, verdict } = measureOf(comparison, 'resistanceAtResonanceOhm');
  return direction.sign === 0 || difference.expandedUncertainty === null ? null : verdict;
}
