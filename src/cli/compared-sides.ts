import type { BandQuestion } from '../core/proof/compare-visits.ts';
import { bracketing, type ComparedVisit } from '../core/proof/compared-visit.ts';
import type { StrengthSides } from '../core/proof/strength-sides.ts';
import type { Site } from '../core/site.ts';
import { UserError } from '../core/user-error.ts';
import type { CompareFlags } from './compare.ts';
import type { LogbookVisit } from './logbook-visits.ts';

/** What is to be compared, and what is known beside it. */
export interface ComparisonAsked {
  readonly site: Site | null;
  /** At least one. */
  readonly questions: readonly BandQuestion[];
  /** The visits of a logbook on either side; empty for loose files. */
  readonly visits: readonly LogbookVisit[];
  /** Received levels of whatever band. */
  readonly strength: StrengthSides | null;
  /** The band of levels that name none. */
  readonly assumedBand: string;
  /** True where no wire was laid or lifted between the sides, so that nothing can have been improved by wires. */
  readonly sameField: boolean;
  /** The sides are the new wires disconnected (before) and connected (after), not two times. */
  readonly isReversal: boolean;
  /** Stored sweeps that are gone or changed, and were done without. */
  readonly lost: readonly UserError[];
  /** Oddities of the question itself. */
  readonly notes: readonly string[];
}

/** Numbers are visits of a logbook; anything else is a file. */
export function asksLogbook(flags: CompareFlags): boolean {
  const words = [...(flags.before ?? []), ...(flags.after ?? []), ...(flags.reversal ?? [])];
  const numbers = words.every((word) => /^[\d,-]+$/u.test(word));
  if (flags.logbook !== undefined && !numbers) {
    throw wrongQuestion(
      '--logbook',
      'compares visits by their numbers, such as --before 3 --after 5; leave it out to compare files',
    );
  }
  return numbers;
}

/**
 * The sides of a reversal: the middle visit, without the new wires, before what the outer ones put around it, with them;
 * so that an improvement is the wires' own.
 */
export function reversalSides(visits: readonly ComparedVisit[]): BandQuestion['sides'] {
  const [first, middle, last] = visits;
  if (first === undefined || middle === undefined || last === undefined || visits.length > 3) {
    throw wrongQuestion(
      '--reversal',
      `needs three visits: as it is, with the new wires disconnected, and as it is again; got ${visits.length}`,
    );
  }
  return { before: [{ visit: middle, share: 1 }], after: bracketing(first, middle, last) };
}

/** What a reversal compares, in a sentence. */
export function reversalNote([first, middle, last]: readonly ComparedVisit[]): string {
  return `a reversal: ${middle?.label} is held against ${first?.label} and ${last?.label}, on either side of it in time, so that a steady drift of soil and instrument drops out; before is without the new wires, after is with them`;
}

/** The error for a question that the command line does not put right. */
export function wrongQuestion(field: string, message: string): UserError {
  return new UserError('compare-question', message, { kind: 'command-line', place: { field } });
}
