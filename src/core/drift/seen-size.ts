import type { MeasuredVisit } from '../record.ts';
import { findResonances } from '../sweep/resonance.ts';
import type { Sweep } from '../sweep/sweep.ts';
import { UserError } from '../user-error.ts';
import type { SeenSize } from './antenna-guess.ts';

/**
 * What healthy sweeps show of the antenna's size: the first series resonance of any of them, and the reactance in the
 * middle of the first one.
 *
 * @throws UserError `visits-missing`
 */
export function seenSize(visits: readonly MeasuredVisit[]): SeenSize {
  const shots = visits.flatMap((visit) => visit.shots);
  const first = shots[0];
  if (first === undefined) {
    throw new UserError('visits-missing', 'needs at least one impedance sweep before, got none');
  }
  let resonanceHz: number | null = null;
  for (const shot of shots) {
    const found = findResonances(shot).find((resonance) => resonance.kind === 'series');
    if (found === undefined) continue;
    resonanceHz = found.frequencyHz;
    break;
  }
  return { resonanceHz, ...reactanceInMiddle(first) };
}

/** Straight line through X over ln f of the middle half. */
function reactanceInMiddle({ frequencyHz, reactanceOhm }: Sweep): Omit<SeenSize, 'resonanceHz'> {
  const n = frequencyHz.length;
  const [from, to] = [Math.floor(n / 4), Math.max(Math.floor(n / 4) + 2, Math.ceil((3 * n) / 4))];
  let [count, sumX, sumY, sumXX, sumXY] = [0, 0, 0, 0, 0];
  for (let i = from; i < Math.min(n, to); i++) {
    const x = Math.log(Math.max(1, frequencyHz[i] as number));
    const y = reactanceOhm[i] as number;
    count++;
    sumX += x;
    sumY += y;
    sumXX += x * x;
    sumXY += x * y;
  }
  const slope = (count * sumXY - sumX * sumY) / Math.max(1e-12, count * sumXX - sumX * sumX);
  return { middleHz: Math.exp(sumX / count), reactanceOhm: sumY / count, reactanceSlopeOhm: slope };
}
