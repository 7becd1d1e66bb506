import { canPlaceChange, type DistanceToChange, distanceToChange } from '../core/drift/distance-to-change.ts';
import type { MeasuredVisit } from '../core/record.ts';
import type { Site } from '../core/site.ts';
import { atPlane, type FeedLine, feedLineOf } from '../core/sweep/feed-line.ts';
import { averageShots } from '../core/sweep/repeats.ts';
import type { Sweep } from '../core/sweep/sweep.ts';

/** Where along the feed line the change sits. */
export interface LineDistance extends DistanceToChange {
  readonly lineM: number;
}

/**
 * Distance to the change for sweeps that were taken in the shack and moved to the feed point, from the first healthy
 * visit to the last one since.
 *
 * @returns null without a feed line, or when the sweeps are too narrow to part its ends
 */
export function lineDistance(
  before: readonly MeasuredVisit[],
  after: readonly MeasuredVisit[],
  site: Site | null,
): LineDistance | null {
  const feedline = site?.feedline ?? null;
  const [healthy, since] = [before[0], after.at(-1)];
  if (feedline === null || healthy === undefined || since === undefined) return null;
  const line = feedLineOf(feedline);
  const [a, b] = [seenInShack(healthy, line), seenInShack(since, line)];
  if (a === null || b === null || !canPlaceChange(a, line.velocityFactor, line.lengthM)) return null;
  return { ...distanceToChange(a, b, line.velocityFactor), lineM: line.lengthM };
}

function seenInShack({ shots }: MeasuredVisit, line: FeedLine): Sweep | null {
  const width = (shot: Sweep): number =>
    (shot.frequencyHz.at(-1) as number) - (shot.frequencyHz[0] as number);
  const widest = shots.reduce<Sweep | null>((a, b) => (a === null || width(b) > width(a) ? b : a), null);
  if (widest === null) return null;
  const same = shots.filter((shot) => width(shot) > 0.9 * width(widest));
  return atPlane(averageShots(same).mean, line, 'shack');
}

/** For people. */
export function lineDistanceText({ nearestM, strongestM, resolutionM, lineM }: LineDistance): string {
  const place = (distance: DistanceToChange['nearestM']): string =>
    `${distance.value?.toFixed(1)} ± ${distance.expandedUncertainty?.toFixed(1)} m`;
  return (
    `Along the feed line of ${lineM.toFixed(1)} m, the nearest change lies at ${place(nearestM)} from the instrument, ` +
    `the strongest at ${place(strongestM)}; changes nearer to each other than ${resolutionM.toFixed(1)} m look like one. ` +
    'The far end, or beyond, is the feed point and the antenna.'
  );
}
