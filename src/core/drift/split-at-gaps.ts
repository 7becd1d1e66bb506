import type { MeasuredVisit } from '../record.ts';
import { isGap } from '../sweep/gap.ts';
import { createSweep, type Sweep } from '../sweep/sweep.ts';

/**
 * The visit with every sweep that holds several bands cut into one sweep a band: nothing was measured in between, and a
 * mean over a bin that reaches across a gap belongs to no frequency. A sweep whose step merely changes stays whole.
 */
export function splitAtGaps(visit: MeasuredVisit): MeasuredVisit {
  return { ...visit, shots: visit.shots.flatMap(splitSweep) };
}

function splitSweep(sweep: Sweep): Sweep[] {
  const f = sweep.frequencyHz;
  const parts: Sweep[] = [];
  let from = 0;
  for (let i = 0; i < f.length; i++) {
    if (!isGap(f, i)) continue;
    parts.push(partOf(sweep, from, i + 1));
    from = i + 1;
  }
  return from === 0 ? [sweep] : [...parts, partOf(sweep, from, f.length)];
}

/** Points from … to − 1 of a sweep. */
export function partOf(sweep: Sweep, from: number, to: number): Sweep {
  return createSweep({
    ...sweep,
    frequencyHz: sweep.frequencyHz.subarray(from, to),
    resistanceOhm: sweep.resistanceOhm.subarray(from, to),
    reactanceOhm: sweep.reactanceOhm.subarray(from, to),
  });
}
