import { atPlane, type FeedLine } from '../sweep/feed-line.ts';
import type { Measure } from './figures.ts';
import type { BeforeAfter, Share } from './pair.ts';
import type { VisitInBand } from './visit-in-band.ts';

/**
 * Standard uncertainties of a cable's nominal figures: cables sold under one number differ by 10 to 20 per cent in
 * loss (common practice), and by a per cent or so in velocity.
 */
const LOSS_FRACTION = 0.1;
const VELOCITY_FRACTION = 0.01;

/**
 * How the figures of both sides move together when the constants of the line, through which all were moved to
 * the feed point, are wrong by one standard uncertainty. What moves both alike drops out of the difference.
 *
 * @returns for each constant the changes of each figure; empty when no line was undone
 */
export function lineChanges(
  sides: BeforeAfter<readonly Share<VisitInBand>[]>,
  line: FeedLine | null,
): ((measure: Measure) => BeforeAfter<number>)[] {
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
    const before = sides.before.map(({ visit, share }) => changesWith(visit, share, line, other));
    const after = sides.after.map(({ visit, share }) => changesWith(visit, share, line, other));
    const sum = (changes: readonly ((measure: Measure) => number)[], measure: Measure): number =>
      changes.reduce((total, change) => total + change(measure), 0);
    return (measure) => ({ before: sum(before, measure), after: sum(after, measure) });
  });
}

function changesWith(
  visit: VisitInBand,
  share: number,
  line: FeedLine,
  other: FeedLine,
): (measure: Measure) => number {
  const { sweep, figures } = visit;
  if (sweep.kind === 'swr' || sweep.plane !== 'feedpoint') return () => 0;
  const changed = atPlane(atPlane(sweep, line, 'shack'), other, 'feedpoint');
  return (measure) => {
    const [now, then] = [visit.reread(measure, changed), figures[measure]];
    return now === null || then === null ? 0 : share * (now - then);
  };
}
