import type { CauseName } from './cause.ts';

/** A cause with its probability, as one diagnosis gave it. */
export interface ProbableCause {
  readonly cause: CauseName;
  readonly probability: number;
}

/** Which causes stand as likely, over many diagnoses. */
export interface SteadyCauses {
  /** Likeliest first by the newest diagnosis. */
  readonly named: readonly CauseName[];
  /** Causes that would come or go if the next diagnosis agrees. */
  readonly waiting: readonly CauseName[];
}

/** A cause comes at or above the first, goes below the second, and stays what it is between them. Our own choice. */
const COMES = 0.3;
const GOES = 0.1;
/** From here on a fault is told at once: one as clear as this need not be seen twice. */
const CLEAR = 0.9;

/**
 * The list of likely causes with hysteresis, for whoever acts when it changes: a probability that wavers about one limit
 * moves nothing, and a cause comes or goes only when two diagnoses running say so, or one that is clear of a fault. That all
 * is well again is never taken from a single one.
 *
 * @param before - null at the first diagnosis, which is taken as it is
 */
export function steadyCauses(before: SteadyCauses | null, causes: readonly ProbableCause[]): SteadyCauses {
  const ranked = [...causes].sort((a, b) => b.probability - a.probability);
  if (before === null) {
    return { named: namesOf(ranked.filter(({ probability }) => probability >= COMES)), waiting: [] };
  }
  const isNamed = ({ cause }: ProbableCause): boolean => before.named.includes(cause);
  const turns = ranked.filter((one) => (isNamed(one) ? one.probability < GOES : one.probability >= COMES));
  const isClear = ranked.some(({ cause, probability }) => cause !== 'none' && probability >= CLEAR);
  const turned = new Set(turns.filter(({ cause }) => isClear || before.waiting.includes(cause)));
  return {
    named: namesOf(ranked.filter((one) => isNamed(one) !== turned.has(one))),
    waiting: namesOf(turns.filter((one) => !turned.has(one))),
  };
}

function namesOf(causes: readonly ProbableCause[]): CauseName[] {
  return causes.map(({ cause }) => cause);
}
