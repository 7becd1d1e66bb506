import type { MeasuredVisit } from '../record.ts';
import type { Sweep } from '../sweep/sweep.ts';
import { UserError } from '../user-error.ts';
import { type BinnedShot, binShot, cutIntoBins, type Stretch } from './bins.ts';
import type { Plane } from './plane.ts';
import { splitAtGaps } from './split-at-gaps.ts';

/** The shots of one visit over one stretch; empty where the visit does not cover it. */
export type VisitBins = readonly BinnedShot[];

/** A stretch of frequency with what the visits before and after show in it. */
export interface ObservedStretch extends Stretch {
  readonly before: readonly VisitBins[];
  readonly after: readonly VisitBins[];
}

/** Everything that two groups of visits say, on common bins. */
export interface Observation {
  readonly stretches: readonly ObservedStretch[];
  readonly plane: Plane;
}

/** Two sweeps belong to one stretch when they share this much of what both together cover. */
const SAME_STRETCH = 0.6;

/**
 * Brings visits before and after to common bins of reflection, one stretch of frequency for each range that both
 * groups cover: a band each where a sweep leaves gaps between bands. Ranges that only one group covers are left out.
 *
 * Loose files of one band each become visits of one stretch; within a group the n-th visit of every stretch is taken
 * for the same day, since that is how people save them.
 *
 * @throws UserError `visits-missing`, `visits-apart` when the groups share no frequencies
 */
export function observe(
  wholeBefore: readonly MeasuredVisit[],
  wholeAfter: readonly MeasuredVisit[],
  plane: Plane,
): Observation {
  requireShots(wholeBefore, 'before');
  requireShots(wholeAfter, 'after');
  const [before, after] = [wholeBefore.map(splitAtGaps), wholeAfter.map(splitAtGaps)];
  const shots = [...before, ...after].flatMap((visit) => visit.shots);
  for (const share of [shareOfBoth, shareOfNarrower]) {
    const stretches: ObservedStretch[] = [];
    for (const group of groupByRange(shots, share)) {
      const stretch = observeStretch(before, after, group, plane);
      if (stretch !== null) stretches.push(stretch);
    }
    if (stretches.length > 0) return { stretches, plane };
  }
  throw new UserError(
    'visits-apart',
    'the sweeps before and after share no frequencies: sweep the same range again',
  );
}

/** One stretch from the sweeps that cover it; null when one side lacks it. */
function observeStretch(
  before: readonly MeasuredVisit[],
  after: readonly MeasuredVisit[],
  group: readonly Sweep[],
  plane: Plane,
): ObservedStretch | null {
  const gridHz = sharedGrid(group);
  if (gridHz === null) return null;
  const stretch = cutIntoBins(gridHz);
  const members = new Set(group);
  const bin = (visits: readonly MeasuredVisit[]): VisitBins[] =>
    visits
      .map(({ shots }) =>
        shots.filter((shot) => members.has(shot)).map((shot) => binShot(shot, stretch, plane)),
      )
      .filter((binned) => binned.length > 0);
  const observed = { ...stretch, before: bin(before), after: bin(after) };
  return observed.before.length > 0 && observed.after.length > 0 ? observed : null;
}

function requireShots(visits: readonly MeasuredVisit[], group: string): void {
  if (visits.every((visit) => visit.shots.length === 0)) {
    throw new UserError('visits-missing', `needs at least one impedance sweep ${group}, got none`);
  }
}

/** Sweeps that cover about the same range, in the order of their first ones. */
function groupByRange(shots: readonly Sweep[], share: (a: Sweep, b: Sweep) => number): Sweep[][] {
  const groups: Sweep[][] = [];
  for (const shot of shots) {
    const group = groups.find(([leader]) => share(leader as Sweep, shot) >= SAME_STRETCH);
    if (group === undefined) groups.push([shot]);
    else group.push(shot);
  }
  return groups;
}

function shareOfBoth(a: Sweep, b: Sweep): number {
  return overlapHz(a, b) / (Math.max(last(a), last(b)) - Math.min(first(a), first(b)));
}

function shareOfNarrower(a: Sweep, b: Sweep): number {
  return overlapHz(a, b) / Math.min(last(a) - first(a), last(b) - first(b));
}

function overlapHz(a: Sweep, b: Sweep): number {
  return Math.min(last(a), last(b)) - Math.max(first(a), first(b));
}

/** The points of the first sweep that all cover; null for less than two. */
function sharedGrid(shots: readonly Sweep[]): Float64Array | null {
  const fromHz = Math.max(...shots.map(first));
  const toHz = Math.min(...shots.map(last));
  const grid = (shots[0] as Sweep).frequencyHz.filter((f) => f >= fromHz && f <= toHz && f > 0);
  return grid.length >= 2 ? grid : null;
}

const first = (sweep: Sweep): number => sweep.frequencyHz[0] as number;
const last = (sweep: Sweep): number => sweep.frequencyHz[sweep.frequencyHz.length - 1] as number;
