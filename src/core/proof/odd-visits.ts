import { oddAgainst } from './odd-value.ts';
import type { VisitInBand } from './visit-in-band.ts';

/** The visits of a field state that agree with most of it, and those that do not. */
export interface PartedVisits<T> {
  readonly usual: readonly T[];
  readonly odd: readonly T[];
}

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
  const isOdd = oddAgainst(known.map(({ resistance }) => resistance));
  const odd = known.filter(({ resistance, gain }) => isOdd(resistance, gain * reflectionUncertainty));
  const oddVisits = odd.map(({ visit }) => visit);
  return { usual: visits.filter((visit) => !oddVisits.includes(visit)), odd: oddVisits };
}
