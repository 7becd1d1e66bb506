import type { Site } from '../core/site.ts';
import { atPlane, feedLineOf, lineHides } from '../core/sweep/feed-line.ts';
import { findResonances } from '../core/sweep/resonance.ts';
import type { AnySweep } from '../core/sweep/sweep.ts';
import { UserError } from '../core/user-error.ts';
import type { ProblemList } from './problem.ts';

/**
 * A sweep that was measured in the shack, moved to the feed point through the line of the site. A feed line in the
 * site moves nothing by itself, and without one the sweep stays as it was seen.
 *
 * @param problems - is told what cannot be moved, and what the line hides
 * @throws UserError as `feedLineOf`
 */
export function toFeedpoint(
  sweep: AnySweep,
  site: Pick<Site, 'feedline' | 'instrument'> | null | undefined,
  problems: ProblemList,
): AnySweep {
  const feedline = site?.feedline ?? null;
  if (sweep.plane === 'feedpoint' || feedline === null) return sweep;
  if (sweep.kind === 'swr') {
    problems.note(
      'plane-scalar',
      'SWR alone cannot be moved through the feed line: it stays as seen in the shack',
    );
    return sweep;
  }
  const line = feedLineOf(feedline);
  try {
    const moved = atPlane(sweep, line, 'feedpoint');
    const uncertainty = site?.instrument.reflectionUncertainty ?? undefined;
    for (const { frequencyHz } of findResonances(moved)) {
      const hides = lineHides(moved, line, frequencyHz, uncertainty);
      if (hides !== null) problems.note('plane-hidden', hides);
    }
    return moved;
  } catch (error) {
    if (!(error instanceof UserError)) throw error;
    problems.refuseBecause(error);
    return sweep;
  }
}
