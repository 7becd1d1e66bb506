import { atPlane, type FeedLine } from '../sweep/feed-line.ts';
import { MEASURES, type Measure } from './figures.ts';
import type { BeforeAfter } from './pair.ts';
import type { VisitInBand } from './visit-in-band.ts';

/**
 * Standard uncertainties of a cable's nominal figures: cables sold under one number differ by 10 to 20 per cent in
 * loss (common practice), and by a per cent or so in velocity.
 */
const LOSS_FRACTION = 0.1;
const VELOCITY_FRACTION = 0.01;

/**
 * How the figures of two visits move together when the constants of the line, through which both were moved to
 * the feed point, are wrong by one standard uncertainty. What moves both alike drops out of the difference.
 *
 * @returns for each constant the changes of each figure; empty when no line was undone
 */
export function lineChanges(
  visits: BeforeAfter<VisitInBand>,
  line: FeedLine | null,
): Readonly<Partial<Record<Measure, BeforeAfter<number>>>>[] {
  if (line === null) return [];
  const wrong: readonly FeedLine[] = [
    {
      ...line,
      conductorLossDb: line.conductorLossDb * (1 + LOSS_FRACTION),
      dielectricLossDb: line.dielectricLossDb * (1 + LOSS_FRACTION),
    },
    { ...line, velocityFactor: line.velocityFactor * (1 + VELOCITY_FRACTION) },
  ];
  return wrong.map((other) => {
    const before = changesWith(visits.before, line, other);
    const after = changesWith(visits.after, line, other);
    const entries = MEASURES.map((measure) => [measure, { before: before(measure), after: after(measure) }]);
    return Object.fromEntries(entries) as Record<Measure, BeforeAfter<number>>;
  });
}

function changesWith(visit: VisitInBand, line: FeedLine, other: FeedLine): (measure: Measure) => number {
  const { sweep, figures } = visit;
  if (sweep.kind === 'swr' || sweep.plane !== 'feedpoint') return () => 0;
  const changed = atPlane(atPlane(sweep, line, 'shack'), other, 'feedpoint');
  return (measure) => {
    const [now, then] = [visit.reread(measure, changed), figures[measure]];
    return now === null || then === null ? 0 : now - then;
  };
}
