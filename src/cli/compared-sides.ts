import { resolve } from 'node:path';
import { bracketing, type ComparedVisit, inEqualParts } from '../core/proof/compared-visit.ts';
import { NO_CONDITIONS } from '../core/proof/conditions.ts';
import type { BeforeAfter, Share } from '../core/proof/pair.ts';
import type { Site } from '../core/site.ts';
import { type FeedLine, feedLineOf } from '../core/sweep/feed-line.ts';
import { UserError } from '../core/user-error.ts';
import { openLogbook } from '../logbook/logbook.ts';
import { readSite } from '../logbook/site-file.ts';
import type { CompareFlags } from './compare.ts';
import type { Io } from './io.ts';
import { logbookFolder } from './logbook-options.ts';
import { countingVisits, type LogbookVisit, type MeasuredState, measuredLogbook } from './logbook-visits.ts';
import { parseNumbers } from './numbers.ts';
import { logbookStrength, looseStrength, type StrengthSides } from './strength-input.ts';
import { loadVisits } from './sweep-input.ts';

/** What is to be compared, and what is known beside it. */
export interface ComparedSides {
  readonly site: Site | null;
  readonly sides: BeforeAfter<readonly Share<ComparedVisit>[]>;
  readonly states: readonly (readonly ComparedVisit[])[];
  readonly line: FeedLine | null;
  readonly strength: StrengthSides | null;
  /** Oddities of the question itself. */
  readonly notes: readonly string[];
}

/** Numbers are visits of a logbook; anything else is a file. */
export function asksLogbook(flags: CompareFlags): boolean {
  const words = [...(flags.before ?? []), ...(flags.after ?? []), ...(flags.reversal ?? [])];
  const numbers = words.every((word) => /^[\d,-]+$/u.test(word));
  if (flags.logbook !== undefined && !numbers) {
    throw wrong(
      '--logbook',
      'compares visits by their numbers, such as --before 3 --after 5; leave it out to compare files',
    );
  }
  return numbers;
}

/** Sides out of loose files: each name without its shot number is a visit. */
export async function sidesOfFiles(io: Io, flags: CompareFlags): Promise<ComparedSides> {
  const site = flags.site === undefined ? null : await readSite(resolve(io.cwd, flags.site));
  const load = async (files: readonly string[]): Promise<ComparedVisit[]> =>
    (await loadVisits(io, files, { ...flags, site })).map(({ label, shots }) => ({
      label,
      time: null,
      shots,
      referenceLoad: [],
      conditions: NO_CONDITIONS,
    }));
  const line = flags.plane === 'shack' && site?.feedline ? feedLineOf(site.feedline) : null;
  const strength = await looseStrength(io, flags);
  if (flags.reversal !== undefined) {
    const visits = await load(flags.reversal);
    return { site, line, strength, states: [], ...reversalOf(visits) };
  }
  const [before, after] = [await load(flags.before ?? []), await load(flags.after ?? [])];
  const severalVisits = before.length > 1 || after.length > 1;
  return {
    site,
    line,
    strength,
    states: severalVisits ? [before, after] : [],
    sides: { before: inEqualParts(before), after: inEqualParts(after) },
    notes: [],
  };
}

/** Sides out of a logbook: visits or field states by number, the last two states where none are given. */
export async function sidesOfLogbook(io: Io, flags: CompareFlags): Promise<ComparedSides> {
  const logbook = await openLogbook(logbookFolder(io, flags));
  const { states, line } = await measuredLogbook(logbook);
  const pick = (words: readonly string[], field: string): LogbookVisit[] =>
    flags.state === true ? visitsOfStates(states, words, field) : visitsByNumber(states, words, field);
  const common = { site: logbook.site, line, states: states.map(countingVisits) };
  if (flags.reversal !== undefined) {
    return { ...common, strength: null, ...reversalOf(pick(flags.reversal, '--reversal')) };
  }
  const last = String(states.length);
  const lastButOne = String(states.length - 1);
  const given = flags.before !== undefined && flags.after !== undefined;
  if (!given && states.length < 2) {
    throw new UserError(
      'nothing-to-compare',
      `two measured field states are needed, and the logbook has ${states.length}; lay wires and measure, or name two visits with --before and --after`,
    );
  }
  const [before, after] = given
    ? [pick(flags.before ?? [], '--before'), pick(flags.after ?? [], '--after')]
    : [visitsOfStates(states, [lastButOne], '--before'), visitsOfStates(states, [last], '--after')];
  const twice = before.find((visit) => after.includes(visit));
  if (twice !== undefined)
    throw wrong('--after', `${twice.label} is on both sides: it differs from itself by nothing`);
  return {
    ...common,
    strength: await logbookStrength(io, flags, logbook, { before, after }),
    sides: { before: inEqualParts(before), after: inEqualParts(after) },
    notes: questionNotes(before, after),
  };
}

function visitsByNumber(
  states: readonly MeasuredState[],
  words: readonly string[],
  field: string,
): LogbookVisit[] {
  const all = states.flatMap(({ visits }) => visits);
  return parseNumbers(words, field).map((number) => {
    const found = all.find(({ visit }) => visit === number);
    if (found !== undefined) return found;
    const known = all.map(({ visit }) => visit).join(', ');
    throw wrong(field, `there is no visit ${number} of the antenna; there are ${known || 'none'}`);
  });
}

function visitsOfStates(
  states: readonly MeasuredState[],
  words: readonly string[],
  field: string,
): LogbookVisit[] {
  return parseNumbers(words, field).flatMap((number) => {
    const found = states[number - 1];
    if (found !== undefined) return countingVisits(found);
    throw wrong(field, `there is no measured field state ${number}; progress lists 1 to ${states.length}`);
  });
}

function reversalOf(visits: readonly ComparedVisit[]): Pick<ComparedSides, 'sides' | 'notes'> {
  const [first, middle, last] = visits;
  if (first === undefined || middle === undefined || last === undefined || visits.length > 3) {
    throw wrong(
      '--reversal',
      `needs three visits: as it is, with the new wires disconnected, and as it is again; got ${visits.length}`,
    );
  }
  return {
    sides: { before: bracketing(first, middle, last), after: [{ visit: middle, share: 1 }] },
    notes: [
      `a reversal: ${middle.label} against what ${first.label} and ${last.label} put around it, so that a steady drift of soil and instrument drops out; with the new wires disconnected in the middle, “worse” says that they help`,
    ],
  };
}

function questionNotes(before: readonly LogbookVisit[], after: readonly LogbookVisit[]): string[] {
  const notes: string[] = [];
  const time = (visits: readonly LogbookVisit[]): number =>
    Math.min(...visits.map((visit) => Date.parse(visit.time)));
  if (time(before) > time(after)) {
    notes.push(
      'the side called before was measured later: the differences are after minus before all the same',
    );
  }
  const states = new Set([...before, ...after].map(({ state }) => state));
  if (states.size === 1) {
    notes.push(
      'no wire was laid or lifted between these visits: a difference is the soil, the instrument or a joint, and never an improvement by wires',
    );
  }
  return notes;
}

function wrong(field: string, message: string): UserError {
  return new UserError('compare-question', message, { kind: 'command-line', place: { field } });
}
