import { isSameField } from '../core/layout/same-field.ts';
import type { BandQuestion } from '../core/proof/compare-visits.ts';
import { inEqualParts } from '../core/proof/compared-visit.ts';
import { MEASURED_LATER } from '../core/proof/comparison-document.ts';
import { assumedBandNotes } from '../core/proof/strength-sides.ts';
import { UserError } from '../core/user-error.ts';
import type { Logbook } from '../logbook/logbook.ts';
import type { CompareFlags } from './compare.ts';
import { bandsMeasured, bandsOfLogbook } from './compared-bands.ts';
import { type ComparisonAsked, reversalNote, reversalSides, wrongQuestion } from './compared-sides.ts';
import type { Io } from './io.ts';
import {
  countingVisits,
  type LogbookVisit,
  lostNotes,
  type MeasuredInBand,
  measuredInBand,
  sparedNotes,
} from './logbook-visits.ts';
import { numbered, numbersText, parseNumbers } from './numbers.ts';
import { openOwnLogbook } from './own-logbook.ts';
import { simulatedNotes } from './simulated-apart.ts';
import { logbookStrength } from './strength-input.ts';

/** Before and after, or the three of a reversal: the visits of each that hold the band. */
type Groups = readonly (readonly LogbookVisit[])[];

/** Numbers as the command line gives them for one group. */
interface Named {
  readonly field: string;
  readonly numbers: readonly number[];
}

/**
 * The question put to a logbook, for each band by the visits that hold it: visits or field states by number, else the
 * last two states, or the last two visits of one.
 */
export async function askedOfLogbook(io: Io, flags: CompareFlags): Promise<ComparisonAsked> {
  const logbook = await openOwnLogbook(io, flags);
  const named = namedGroups(flags);
  const bands = await bandsOfLogbook(flags, logbook);
  const all = await Promise.all(bands.map((band) => measuredInBand(logbook, band, visitsOf(named, flags))));
  const picked = all.map((measured) => ({
    measured,
    groups: named === null ? lastTwo(measured) : pickNamed(named, flags, logbook, measured),
  }));
  const answered = picked.filter(({ groups }) => isWhole(groups));
  const [first] = answered;
  const lost = all.flatMap((measured) => measured.lost);
  if (first === undefined) throw lost[0] ?? nothingToCompare(named, all);
  const isReversal = flags.reversal !== undefined;
  const [before = [], after = []] = first.groups;
  const visits = answered.flatMap(({ groups }) => groups.flat());
  const strength = isReversal ? null : await logbookStrength(io, flags, logbook, { before, after });
  const measuredBands = bandsMeasured(logbook);
  const assumedBand = measuredBands[0] ?? first.measured.band.band;
  return {
    site: logbook.site,
    questions: answered.map(({ measured: { band, states, line }, groups }) => ({
      band,
      line,
      states: states.map(countingVisits),
      sides: isReversal ? reversalSides(groups.flat()) : sidesOf(groups),
    })),
    visits,
    lost,
    strength,
    assumedBand,
    isReversal,
    sameField: !isReversal && visits.every(({ state }) => isSameField(state, visits[0]?.state ?? state)),
    notes: [
      ...(isReversal ? [reversalNote(first.groups.flat())] : orderNotes(first.groups)),
      ...picked.filter(({ groups }) => !isWhole(groups)).map(({ measured }) => leftOutNote(measured)),
      ...simulatedNotes(
        logbook,
        visits.map(({ visit }) => visit),
      ),
      ...sparedNotes(Math.max(...all.map(({ spared }) => spared))),
      ...lostNotes(lost),
      ...assumedBandNotes(
        [...(strength?.before ?? []), ...(strength?.after ?? [])],
        assumedBand,
        measuredBands,
      ),
    ],
  };
}

/** What the command line names; null where it leaves the choice to the logbook. */
function namedGroups({ before, after, reversal }: CompareFlags): Named[] | null {
  if (reversal !== undefined) {
    return parseNumbers(reversal, '--reversal').map((number) => ({ field: '--reversal', numbers: [number] }));
  }
  if (before === undefined || after === undefined) return null;
  return [
    { field: '--before', numbers: parseNumbers(before, '--before') },
    { field: '--after', numbers: parseNumbers(after, '--after') },
  ];
}

/** The visits that are named by number. */
function visitsOf(named: readonly Named[] | null, { state }: CompareFlags): number[] {
  return named === null || state === true ? [] : named.flatMap(({ numbers }) => numbers);
}

function lastTwo({ states }: MeasuredInBand): Groups {
  const [lastButOne, last] = [states.at(-2), states.at(-1)];
  if (last === undefined) return [];
  if (lastButOne !== undefined) return [countingVisits(lastButOne), countingVisits(last)];
  return [last.visits.slice(-2, -1), last.visits.slice(-1)];
}

function pickNamed(
  named: readonly Named[],
  { state }: CompareFlags,
  { visits }: Logbook,
  { band, states }: MeasuredInBand,
): Groups {
  const inBand = states.flatMap((measured) => measured.visits);
  const ofAntenna = visits.filter(({ shots }) => shots.some(({ target }) => target === 'antenna'));
  return named.map(({ field, numbers }) =>
    numbers.flatMap((number) => {
      if (state === true) {
        const found = states[number - 1];
        if (found !== undefined) return countingVisits(found);
        const known = `progress --band ${band.band} lists 1 to ${states.length}`;
        throw wrongQuestion(field, `there is no measured field state ${number}; ${known}`);
      }
      if (ofAntenna.some(({ visit }) => visit === number)) {
        return inBand.filter(({ visit }) => visit === number);
      }
      const known = numbersText(ofAntenna.map(({ visit }) => visit)) || 'none';
      throw wrongQuestion(field, `there is no visit ${number} of the antenna; there are ${known}`);
    }),
  );
}

function isWhole(groups: Groups): boolean {
  return groups.length > 1 && groups.every((visits) => visits.length > 0);
}

function sidesOf([before = [], after = []]: Groups): BandQuestion['sides'] {
  const twice = before.find((visit) => after.includes(visit));
  if (twice === undefined) return { before: inEqualParts(before), after: inEqualParts(after) };
  throw wrongQuestion('--after', `${twice.label} is on both sides, and no visit differs from itself`);
}

function orderNotes([before = [], after = []]: Groups): string[] {
  const first = (visits: readonly LogbookVisit[]): number =>
    Math.min(...visits.map(({ time }) => Date.parse(time)));
  return first(before) > first(after) ? [MEASURED_LATER] : [];
}

function leftOutNote({ band, states }: MeasuredInBand): string {
  return `${band.band} is not compared, because not both sides hold it: ${heldBy(band.band, states)}`;
}

function heldBy(band: string, states: MeasuredInBand['states']): string {
  const numbers = states.flatMap(({ visits }) => visits.map(({ visit }) => visit)).sort((a, b) => a - b);
  return `${band} is held by ${numbers.length === 0 ? 'no visit' : numbered('visit', numbers)}`;
}

function nothingToCompare(named: readonly Named[] | null, all: readonly MeasuredInBand[]): UserError {
  const held = all.map(({ band, states }) => heldBy(band.band, states)).join(', ');
  const message =
    named === null
      ? `two visits of one band are needed, and ${held}; measure, lay wires, and measure again`
      : `the visits named hold no band in common: ${held}; name visits of one band`;
  return new UserError('nothing-to-compare', message);
}
