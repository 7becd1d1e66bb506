import { median } from './summary.ts';
import type { VisitInBand } from './visit-in-band.ts';

/** The visits of a field state that agree with most of it, and those that do not. */
export interface PartedVisits<T> {
  readonly usual: readonly T[];
  readonly odd: readonly T[];
}

/** Fewer visits cannot tell which of them is odd. */
const LEAST_VISITS = 4;

/** Robust deviations from the median beyond which a visit is not of the same scatter. */
const ODD = 4;

/** Makes the median distance from the median the standard deviation of a normal scatter. */
const NORMAL = 1.4826;

/**
 * Parts off visits whose R at X = 0 stands far from the other visits of the same field: a joint that went bad is no
 * measure of how well visits repeat, nor of what so many radials give.
 *
 * @param reflectionUncertainty - what the instrument alone may scatter, standard, so that good luck condemns nobody
 */
export function partOddVisits<T extends VisitInBand>(
  visits: readonly T[],
  reflectionUncertainty: number,
): PartedVisits<T> {
  const known = visits.flatMap((visit) => {
    const resistance = visit.figures.resistanceAtResonanceOhm;
    const gain = visit.sensitivity('resistanceAtResonanceOhm')?.gain;
    return resistance === null || gain === undefined ? [] : [{ visit, resistance, gain }];
  });
  if (known.length < LEAST_VISITS) return { usual: visits, odd: [] };
  const centre = median(known.map(({ resistance }) => resistance));
  const deviation = NORMAL * median(known.map(({ resistance }) => Math.abs(resistance - centre)));
  const odd = known.filter(
    ({ resistance, gain }) =>
      Math.abs(resistance - centre) > ODD * Math.max(deviation, gain * reflectionUncertainty),
  );
  const oddVisits = odd.map(({ visit }) => visit);
  return { usual: visits.filter((visit) => !oddVisits.includes(visit)), odd: oddVisits };
}
