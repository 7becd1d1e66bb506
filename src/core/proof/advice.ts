import { plural } from '../plural.ts';
import type { Quantity } from '../quantity-with-uncertainty.ts';
import type { Gain } from './field-fit.ts';
import type { ProgressStep } from './progress-steps.ts';
import { LEAST_PAIRS, type StrengthComparison } from './strength.ts';
import { studentQuantile } from './student.ts';
import type { Verdict } from './verdict.ts';

/** What to do next. */
export type Advice = 'go on' | 'stop' | 'measure again';

/** What to do next, and why, in one sentence. */
export interface Advised {
  readonly advice: Advice;
  readonly why: string;
  /** True where the last step should be measured again by a reversal. */
  readonly doubtful: boolean;
  /** Why R is a poor guide here; empty where it is a fair one. */
  readonly poorGuide: readonly string[];
}

/** What is worth a doubling of the wire, where the site does not say. */
export const DEFAULT_WORTHWHILE_DB = 0.25;

/** How sure one must be that the doubling is not worth it. */
export const SURE = 0.9;

/** Below this number the current returns through the soil between the wires, and R tells little of it. */
const FEW_RADIALS = 8;

/** A resonance that moves by more than this in one step has moved the element's own resistance too. */
const MOVED_RESONANCE = 0.02;

/** Gains known no better than this are worth another look before one decides by them. */
const TOO_UNSURE = 0.5;

/** What the advice rests on. */
export interface AdviceInput {
  /** Those with a resistance, in order of time, at least one. */
  readonly steps: readonly ProgressStep[];
  /** Of the next doubling of the wire; null where no curve could be fitted. */
  readonly doubling: Gain | null;
  /** Measured steps that the curve behind it needs before anyone may stop by it. */
  readonly stepsToStop: number;
  readonly worthwhileDb: number;
  /**
   * What `compare` says of R over the last two of them, null where it can say nothing; where it was not asked, the step is
   * judged by its own uncertainty.
   */
  readonly lastStep?: Verdict | null | undefined;
  /** Received strength between the last two steps, where it was read. */
  readonly lastStrength: StrengthComparison | null;
}

/**
 * Advises whether the next doubling of the wire is worth laying.
 *
 * Stop needs nine chances in ten that it is worth less than the threshold. A step that went the wrong way, or moved
 * the resonance, is measured again first. Received strength outranks the resistance.
 */
export function advise(input: AdviceInput): Advised {
  const { steps, doubling, worthwhileDb, lastStrength } = input;
  const last = steps.at(-1) as ProgressStep;
  const before = steps.at(-2) ?? null;
  const poorGuide = poorGuideReasons(before, last);
  const grew = last.radials > (before?.radials ?? last.radials);
  const { lastStep = byItself(last.stepDb) } = input;
  const doubtful = grew && lastStep !== null && lastStep !== 'improved';
  const answer = (advice: Advice, why: string): Advised => ({ advice, why, doubtful, poorGuide });
  if (last.radials < FEW_RADIALS) {
    return answer(
      'go on',
      `${plural(last.radials, 'radial')} ${last.radials === 1 ? 'is' : 'are'} few: with fewer than ${FEW_RADIALS} every wire counts, and R does not yet tell by how much`,
    );
  }
  if (grew && lastStep === 'worse') {
    return answer(
      'measure again',
      `R rose with the last wires, which wires alone cannot cause: look at the joints and the soil, and measure again`,
    );
  }
  if (resonanceMoved(before, last)) {
    return answer(
      'measure again',
      'the resonance moved by more than 2 % in the last step, so that R before and after are not of the same element',
    );
  }
  const byCurve: Saying =
    doubling === null
      ? ['measure again', whyNoCurve(steps)]
      : byTheCurve(doubling, worthwhileDb, steps.length >= input.stepsToStop);
  const byStrength = byTheStrength(lastStrength, before, last, worthwhileDb);
  const [advice, why] = byStrength?.(byCurve) ?? byCurve;
  if (advice === 'stop' && !last.repeated) {
    return answer(
      'measure again',
      `${why}; but single shots stand behind it, which tell nothing of how well they repeat: take three or more before you stop`,
    );
  }
  return answer(advice, why);
}

/** The verdict on a gain alone. */
function byItself({ value, expandedUncertainty }: Quantity): Verdict | null {
  if (value === null || expandedUncertainty === null) return null;
  if (Math.abs(value) <= expandedUncertainty) return 'not shown';
  return value > 0 ? 'improved' : 'worse';
}

function whyNoCurve(steps: readonly ProgressStep[]): string {
  const counts = new Set(steps.map(({ radials }) => radials));
  return counts.size < 2
    ? 'one measured number of radials gives no curve: lay some more and measure'
    : 'R does not fall along a curve as wires are added, so that it does not tell what more would bring';
}

type Saying = readonly [advice: Advice, why: string];

/**
 * What received strength, read before and after the last step, says of the next doubling, and with it of what the curve
 * says; null where it was not read or no wire was added.
 *
 * Of a loss that falls as 1/N, the next doubling takes away 1/(2(r − 1)) times as much as the step from N to rN did: our
 * own rule of thumb, in which a loss that falls more slowly leaves still more to the doubling.
 */
function byTheStrength(
  strength: StrengthComparison | null,
  before: ProgressStep | null,
  last: ProgressStep,
  worthwhileDb: number,
): ((byCurve: Saying) => Saying) | null {
  const ratio = before === null ? 1 : last.radials / before.radials;
  if (strength === null || strength.medianDb === null || !(ratio > 1)) return null;
  const { medianDb, intervalDb, places } = strength;
  const share = Number.isFinite(ratio) ? 1 / (2 * (ratio - 1)) : 0;
  const threshold = `${worthwhileDb.toFixed(2)} dB`;
  return (byCurve) => {
    if (intervalDb === null) {
      const expectedDb = share * medianDb;
      if (byCurve[0] !== 'stop' || expectedDb < worthwhileDb) return byCurve;
      const told = `received strength rose by ${medianDb.toFixed(1)} dB at ${plural(places.length, 'place')} in the last step; by rule of thumb the next doubling of the wire would bring ${expectedDb.toFixed(1)} dB`;
      return [
        'measure again',
        `${told}, while R tells of less than ${threshold}: strength outranks R, and decides once ${LEAST_PAIRS} places are read before and after`,
      ];
    }
    const [leastDb, mostDb] = intervalDb;
    if (Math.max(1, share) * leastDb > worthwhileDb) {
      return [
        'go on',
        `received strength rose by at least ${leastDb.toFixed(1)} dB in the last step, from ${before?.radials ?? 0} to ${plural(last.radials, 'radial')}, and it outranks R`,
      ];
    }
    if (Math.max(1, share) * mostDb < worthwhileDb) {
      return [
        'stop',
        `received strength rose by at most ${Math.max(0, mostDb).toFixed(1)} dB in the last step, which leaves less than ${threshold} to the next doubling of the wire, and it outranks R`,
      ];
    }
    return byCurve;
  };
}

function byTheCurve(
  { valueDb, standardUncertaintyDb }: Gain,
  worthwhileDb: number,
  mayStop: boolean,
): Saying {
  const threshold = `${worthwhileDb.toFixed(2)} dB`;
  const margin = studentQuantile(SURE, Number.POSITIVE_INFINITY) * standardUncertaintyDb;
  const gain = `${valueDb.toFixed(2)} dB`;
  const worth = `the next doubling of the wire is worth about ${gain}`;
  if (valueDb + margin < worthwhileDb) {
    return mayStop
      ? ['stop', `${worth} and, nine chances in ten, less than ${threshold}`]
      : ['go on', `too few steps were measured to tell when to stop: so far ${worth}`];
  }
  if (valueDb >= worthwhileDb) {
    const sure = valueDb - margin >= worthwhileDb ? '' : ', though not surely';
    return ['go on', `${worth}, more than ${threshold}${sure}`];
  }
  return margin > TOO_UNSURE * worthwhileDb
    ? ['measure again', `${worth}, known too poorly to tell it from ${threshold}: another visit would tell`]
    : ['go on', `${worth}, too near ${threshold} to be sure that it is less`];
}

function poorGuideReasons(before: ProgressStep | null, last: ProgressStep): string[] {
  const reasons: string[] = [];
  if (last.radials < FEW_RADIALS) {
    reasons.push(
      `below ${FEW_RADIALS} radials R is a poor guide: much of the current returns through the soil between the wires, and the radiation resistance changes with them`,
    );
  }
  if (resonanceMoved(before, last)) {
    reasons.push(
      'where the resonance moved by more than 2 % in a step R is a poor guide: at another frequency the element itself has another radiation resistance',
    );
  }
  return reasons;
}

function resonanceMoved(before: ProgressStep | null, last: ProgressStep): boolean {
  const [then, now] = [before?.resonanceHz.value ?? null, last.resonanceHz.value];
  return then !== null && now !== null && Math.abs(now / then - 1) > MOVED_RESONANCE;
}
