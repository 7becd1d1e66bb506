import type { MeasuredVisit } from '../record.ts';
import type { Site } from '../site.ts';
import { type AntennaGuess, guessAntenna } from './antenna-guess.ts';
import { withinModelRange } from './model-range.ts';
import { seenSize } from './seen-size.ts';

/** What is left to compare, and the antenna to begin with. */
export interface UsableRange {
  readonly before: readonly MeasuredVisit[];
  readonly after: readonly MeasuredVisit[];
  readonly guess: AntennaGuess;
}

/**
 * The part of the sweeps that the model can read. Where the site's height leaves none of it, near a half wave, the
 * antenna is taken for a quarter wave at its resonance instead.
 */
export function usableRange(
  before: readonly MeasuredVisit[],
  after: readonly MeasuredVisit[],
  site: Site | null,
): UsableRange {
  const seen = seenSize(before);
  const unhelped = site === null ? null : { ...site, antenna: { ...site.antenna, heightM: null } };
  for (const guess of [guessAntenna(site, seen), guessAntenna(unhelped, seen)]) {
    const cutBefore = withinModelRange(before, guess.heightM);
    const cutAfter = withinModelRange(after, guess.heightM);
    if (cutBefore !== null && cutAfter !== null) return { before: cutBefore, after: cutAfter, guess };
  }
  return { before, after, guess: guessAntenna(unhelped, seen) };
}
