import type { ShotRecord, VisitRecord } from './record.ts';
import type { Band } from './sweep/bands.ts';

/** Whether a sweep reaches into a band. */
export function reachesInto(
  { fromHz, toHz }: Pick<ShotRecord, 'fromHz' | 'toHz'>,
  band: Pick<Band, 'fromHz' | 'toHz'>,
): boolean {
  return fromHz < band.toHz && toHz > band.fromHz;
}

/**
 * The visits of a logbook that hold a band: each with those of its antenna shots that reach into it. One logbook keeps
 * several bands side by side, often as a visit for each. Sweeps of the reference load stay whatever they cover, for
 * they watch the instrument.
 *
 * @returns in the order given; a visit without such a shot is left out
 */
export function visitsInBand(
  visits: readonly VisitRecord[],
  band: Pick<Band, 'fromHz' | 'toHz'>,
): VisitRecord[] {
  return visits.flatMap((visit) => {
    const shots = visit.shots.filter((shot) => shot.target !== 'antenna' || reachesInto(shot, band));
    if (!shots.some(({ target }) => target === 'antenna')) return [];
    return shots.length === visit.shots.length ? [visit] : [{ ...visit, shots }];
  });
}
