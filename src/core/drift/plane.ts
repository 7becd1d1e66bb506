import type { MeasuredVisit } from '../record.ts';
import { atPlane, electricalLengthRad, type FeedLine } from '../sweep/feed-line.ts';
import { type Columns, emptyColumns } from './columns.ts';

/**
 * Where the evidence is weighed: the plane at which it was measured, since there the instrument's errors are as plain as
 * they are, while through a line they come out as ripple at the feed point.
 *
 * Through a line Γ is told unwound, times exp(+j2βl) of the line as the site has it: a turn that changes no size, so that
 * errors stay what they are, and that leaves a curve smooth enough for bins.
 */
export interface Plane {
  readonly referenceOhm: number;
  readonly line: FeedLine | null;
  /** What was measured there, unwound. */
  told(reflection: Columns, frequencyHz: Float64Array): Columns;
  /** The other way. */
  untold(reflection: Columns, frequencyHz: Float64Array): Columns;
}

/** @param line - what the sweeps have been moved through to the feed point; null where they were taken there */
export function planeOf(referenceOhm: number, line: FeedLine | null): Plane {
  const turn = (reflection: Columns, frequencyHz: Float64Array, direction: 1 | -1): Columns =>
    line === null ? reflection : rotated(reflection, line, frequencyHz, direction);
  return {
    referenceOhm,
    line,
    told: (reflection, frequencyHz) => turn(reflection, frequencyHz, 1),
    untold: (reflection, frequencyHz) => turn(reflection, frequencyHz, -1),
  };
}

/** Sweeps at the feed point moved back to where they were measured. */
export function asMeasured(
  visits: readonly MeasuredVisit[],
  line: FeedLine | null,
): readonly MeasuredVisit[] {
  if (line === null) return visits;
  return visits.map((visit) => ({
    ...visit,
    shots: visit.shots.map((shot) => atPlane(shot, line, 'shack')),
  }));
}

function rotated({ re, im }: Columns, line: FeedLine, frequencyHz: Float64Array, direction: 1 | -1): Columns {
  const result = emptyColumns(re.length);
  for (let i = 0; i < re.length; i++) {
    const turn = 2 * direction * electricalLengthRad(line, frequencyHz[i] as number);
    const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
    result.re[i] = (re[i] as number) * cos - (im[i] as number) * sin;
    result.im[i] = (re[i] as number) * sin + (im[i] as number) * cos;
  }
  return result;
}
