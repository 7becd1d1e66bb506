import type { Round } from '../core/drift/rounds.ts';
import type { JudgedBy } from '../core/drift/watch.ts';
import { numbered } from '../formats/numbered.ts';
import type { LogbookDrift } from './logbook-drift.ts';

/** A fault that came and went, as it is told. */
export interface ToldApart {
  readonly visits: readonly number[];
  /** The first visit that was back among the rest. */
  readonly backAt: number;
  /** Day of the repair in between; null when none was noted. */
  readonly repairedOn: string | null;
}

/** The faults that came and went, by the numbers of their visits. */
export function toldApart({ watch, rounds }: Pick<LogbookDrift, 'watch' | 'rounds'>): ToldApart[] {
  return watch.apart.map(({ places, backAt, repairedMs }) => ({
    visits: places.flatMap((place) => numbersOf([rounds[place] as Round])),
    backAt: numbersOf([rounds[backAt] as Round])[0] as number,
    repairedOn: repairedMs === null ? null : new Date(repairedMs).toISOString().slice(0, 10),
  }));
}

/** One sentence for each fault that came and went. */
export function apartSentences(found: Pick<LogbookDrift, 'watch' | 'rounds' | 'baseline'>): string[] {
  const used = new Set(numbersOf(found.baseline));
  return toldApart(found).map(({ visits, backAt, repairedOn }) => {
    const [stands, is] = visits.length === 1 ? ['stands', 'is'] : ['stand', 'are'];
    const kept = visits.some((visit) => used.has(visit)) ? '' : ` and ${is} kept out of the baseline`;
    const back = `visit ${backAt} is back within what the others show`;
    const why =
      repairedOn === null
        ? `${back}, and no repair was noted in between`
        : `a repair was noted on ${repairedOn}, and ${back}`;
    return `${numbered('Visit', visits)} ${stands} apart from the rest${kept}; ${why}.`;
  });
}

/** Why these visits are judged, and no more or fewer. */
export const JUDGED_BECAUSE: Readonly<Record<JudgedBy, string>> = {
  step: 'all since the step',
  repair: 'since the repair that was noted after the step',
  'young-step':
    'the newest alone, since two visits cannot tell a fault that grows from one that comes and goes',
  newest: 'the newest alone, since no lasting step shows',
};

/** Numbers of the visits of rounds. */
export function numbersOf(rounds: readonly Round[]): number[] {
  return rounds.flatMap(({ visits }) => visits.map(({ visit }) => visit));
}
