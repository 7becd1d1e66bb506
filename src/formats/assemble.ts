import type { ReferencePlane } from '../core/record.ts';
import { type AnySweep, createScalarSweep, createSweep } from '../core/sweep/sweep.ts';
import type { ProblemList } from './problem.ts';
import { findRuns, type Run } from './runs.ts';
import { plural } from './words.ts';

/** Points in the order of the file, already in SI. */
export interface Points {
  readonly kind: 'impedance' | 'swr';
  readonly frequencyHz: Float64Array;
  /** Resistance (ohm), NaN for a point to leave out; or SWR for a scalar table, NaN for none. */
  readonly first: Float64Array;
  /** Reactance (ohm); empty for a scalar table. */
  readonly second: Float64Array;
  /** Indices at which the file itself says that a new sweep begins (a repeated header). */
  readonly breaks: readonly number[];
  readonly referenceOhm: number;
  readonly plane: ReferencePlane;
  /** Line of a point in the file. */
  lineOf(index: number): number;
}

/** More shots than any visit has: each becomes a file of a logbook. */
const MOST_SWEEPS = 1000;

/**
 * Makes the sweeps of a file out of its points: one for each time the frequency starts again, a falling one turned
 * round, a repeated frequency kept once. Everything that is not kept as it came is noted.
 */
export function assembleSweeps(points: Points, problems: ProblemList): AnySweep[] {
  const runs = findRuns(points.frequencyHz, points.breaks);
  if ('disorderAt' in runs) {
    const { disorderAt } = runs;
    const mhz = (index: number): number => (points.frequencyHz[index] as number) / 1e6;
    problems.refuse(
      'frequencies-unsorted',
      `frequencies must rise or fall through a sweep, or start again from its beginning; got ${mhz(disorderAt)} MHz after ${mhz(disorderAt - 1)} MHz`,
      points.lineOf(disorderAt),
    );
    return [];
  }
  if (runs.length > MOST_SWEEPS) {
    problems.refuse('too-many-sweeps', `a file may hold ${MOST_SWEEPS} sweeps, got ${runs.length}`);
    return [];
  }
  if (runs.length > 1) {
    problems.note('several-sweeps', `holds ${runs.length} sweeps, taken as shots of one visit`);
  }
  const sweeps = runs.map((run) => assembleRun(points, run, problems)).filter((sweep) => sweep !== null);
  noteReflectionAboveOne(sweeps, problems);
  return sweeps;
}

function assembleRun(points: Points, run: Run, problems: ProblemList): AnySweep | null {
  const order = keptPoints(points, run, problems);
  if (order.length < 2) {
    problems.refuse(
      'sweep-too-short',
      `a sweep needs at least 2 points, got ${order.length}`,
      points.lineOf(run.from),
    );
    return null;
  }
  if (run.falling) {
    order.reverse();
    problems.note('sweep-reversed', 'frequencies fall; the sweep was reversed', points.lineOf(run.from));
  }
  const pick = (column: Float64Array): Float64Array => {
    if (order.length === column.length && !run.falling) return column;
    const picked = new Float64Array(order.length);
    for (let i = 0; i < order.length; i++) picked[i] = column[order[i] as number] as number;
    return picked;
  };
  const { referenceOhm, plane } = points;
  const frequencyHz = pick(points.frequencyHz);
  return points.kind === 'swr'
    ? createScalarSweep({ frequencyHz, swr: pick(points.first), referenceOhm, plane })
    : createSweep({
        frequencyHz,
        resistanceOhm: pick(points.first),
        reactanceOhm: pick(points.second),
        referenceOhm,
        plane,
      });
}

/** Indices of a run without the second and later points of one frequency. */
function keptPoints(points: Points, run: Run, problems: ProblemList): Int32Array {
  const { frequencyHz, first, second } = points;
  const kept = new Int32Array(run.to - run.from + 1);
  let count = 0;
  let last = -1;
  for (let i = run.from; i <= run.to; i++) {
    if (points.kind === 'impedance' && Number.isNaN(first[i])) continue;
    if (last >= 0 && frequencyHz[i] === frequencyHz[last]) {
      const same = Object.is(first[i], first[last]) && Object.is(second[i], second[last]);
      problems.note(
        'frequency-repeated',
        `${(frequencyHz[i] as number) / 1e6} MHz appears again with ${same ? 'the same' : 'different'} values; the first (line ${points.lineOf(last)}) is kept`,
        points.lineOf(i),
      );
      continue;
    }
    kept[count++] = i;
    last = i;
  }
  return kept.subarray(0, count);
}

/** |Γ| ≥ 1 for any reference is the same as R ≤ 0. */
function noteReflectionAboveOne(sweeps: readonly AnySweep[], problems: ProblemList): void {
  let count = 0;
  let total = 0;
  for (const sweep of sweeps) {
    if (sweep.kind === 'swr') continue;
    const { resistanceOhm } = sweep;
    total += resistanceOhm.length;
    for (let i = 0; i < resistanceOhm.length; i++) if ((resistanceOhm[i] as number) <= 0) count++;
  }
  if (count === 0) return;
  problems.note(
    'reflection-not-below-one',
    `${plural(count, 'point')} of ${total} with R ≤ 0 (|Γ| ≥ 1): no SWR there, check the instrument's calibration`,
  );
}
