import { plural } from '../plural.ts';
import { formatLength, type UnitSystem } from '../quantity.ts';
import type { Candidate } from './budget.ts';

/** What weighing many short wires against few long ones taught, for the wire at hand. */
export interface Lesson {
  readonly says: 'more beats longer' | 'hardly matters' | 'longer does best';
  readonly chosen: Candidate;
  /** The field of the longest wires, at least half as long again; null where none was tried. */
  readonly rival: Candidate | null;
}

/** Less than this between two fields is nothing anybody could measure, dB. */
const NOTHING_DB = 0.05;

/** A rival is at least so many times as long as the wires of the chosen field. */
const LONGER = 1.5;

/**
 * Whether many short wires beat few long ones here.
 * @param ranked - fields that use the same wire, least loss first, at least one
 * @returns null when there is nothing to weigh
 */
export function lessonOf(ranked: readonly Candidate[]): Lesson | null {
  const chosen = ranked[0] as Candidate;
  if (ranked.length < 2) return null;
  const [rival = null] = ranked
    .filter(({ nominalLengthM }) => nominalLengthM >= LONGER * chosen.nominalLengthM)
    .sort((a, b) => b.nominalLengthM - a.nominalLengthM);
  if (rival === null) return { says: 'longer does best', chosen, rival };
  const says = rival.meanLossDb - chosen.meanLossDb < NOTHING_DB ? 'hardly matters' : 'more beats longer';
  return { says, chosen, rival };
}

/** The lesson as a sentence. */
export function lessonText({ says, chosen, rival }: Lesson, units: UnitSystem): string {
  if (rival === null) {
    return 'with this much wire, fewer and longer radials do best here: no field of more and shorter ones that it gives loses less';
  }
  const describe = ({ routes, nominalLengthM }: Candidate): string =>
    `${plural(routes.length, 'radial')} of up to ${formatLength(nominalLengthM, units)}`;
  return says === 'hardly matters'
    ? `count and length hardly matter with this much wire: ${describe(chosen)} and ${describe(rival)} come within ${NOTHING_DB} dB of each other`
    : `more beats longer here: ${describe(chosen)} lose ${(rival.meanLossDb - chosen.meanLossDb).toFixed(2)} dB less than ${describe(rival)}`;
}
