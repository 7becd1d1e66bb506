import type { Quantity } from '../quantity-with-uncertainty.ts';
import { UserError } from '../user-error.ts';
import { type AdviceInput, type Advised, advise, DEFAULT_WORTHWHILE_DB } from './advice.ts';
import { EXPLAINS, type FieldFit, type Gain, type Wires } from './field-fit.ts';
import { type GroundKnowledge, groundFit } from './ground-fit.ts';
import { powerLawFit } from './power-law-fit.ts';
import type { FitPoint, ProgressStep } from './progress-steps.ts';
import type { StrengthComparison } from './strength.ts';

/** What some more wires would be worth. */
export interface NextWires {
  /** How many would be added, and how much wire that is. */
  readonly radials: number;
  readonly wireM: number;
  readonly gainDb: Quantity;
  readonly gainPerWireDb: number | null;
  readonly gainPerMetreDb: number | null;
}

/** Where a field of radials stands, and whether to go on. */
export interface Progress extends Advised {
  readonly steps: readonly ProgressStep[];
  readonly fit: FieldFit | null;
  /** Why the fit of soil and ground loss was not used; null where it was. */
  readonly whyNotGround: string | null;
  readonly next: NextWires | null;
  readonly doubling: NextWires | null;
  readonly worthwhileDb: number;
}

/** What is asked of a row of field states. */
export interface ProgressQuestion {
  /** Null where the site does not tell the antenna, or is not one that the method covers. */
  readonly ground: GroundKnowledge | null;
  readonly worthwhileDb: number | null;
  /** How many wires, of which length, would be laid next; by default as many as there are, of their mean length. */
  readonly next: Wires | null;
  readonly lastStrength: StrengthComparison | null;
  /** See {@link AdviceInput.lastStep}. */
  readonly lastStep?: AdviceInput['lastStep'];
}

/**
 * Fits the measured steps and advises whether to lay more wires.
 * @param steps - in order of time
 */
export function progressOf(steps: readonly ProgressStep[], question: ProgressQuestion): Progress {
  const points = steps.flatMap(({ point }) => (point === null ? [] : [point]));
  const worthwhileDb = question.worthwhileDb ?? DEFAULT_WORTHWHILE_DB;
  const { fit, whyNotGround } = bestFit(points, question.ground);
  const now = points.at(-1) ?? null;
  const asked = question.next ?? now;
  const doublingGain = fit === null || now === null ? null : fit.gain(now, doubled(now));
  const measured = steps.filter(({ point }) => point !== null);
  const advised =
    measured.length === 0
      ? nothingMeasured(steps)
      : advise({
          steps: measured,
          doubling: doublingGain,
          stepsToStop: fit?.stepsToStop ?? 0,
          worthwhileDb,
          lastStrength: question.lastStrength,
          lastStep: question.lastStep,
        });
  return {
    ...advised,
    steps,
    fit,
    whyNotGround,
    worthwhileDb,
    next: asked === null || now === null ? null : nextWires(fit, now, asked),
    doubling: now === null ? null : nextWires(fit, now, now),
  };
}

/** Physics where the antenna is known and it explains the points; else the power law. */
function bestFit(
  points: readonly FitPoint[],
  ground: GroundKnowledge | null,
): Pick<Progress, 'fit' | 'whyNotGround'> {
  const fallBack = (whyNotGround: string): Pick<Progress, 'fit' | 'whyNotGround'> => ({
    fit: powerLawFit(points),
    whyNotGround,
  });
  if (points.length === 0) return { fit: null, whyNotGround: null };
  if (ground === null) {
    return fallBack('the site does not tell the height and diameter of a quarter-wave or shorter antenna');
  }
  const fit = groundFitOrReason(points, ground);
  if (typeof fit === 'string') return fallBack(fit);
  if (fit === null) return fallBack('the fit of soil and ground loss did not converge');
  if (fit.quality.probability !== null && fit.quality.probability < EXPLAINS) {
    return fallBack(
      `no soil explains the points (χ² ${fit.quality.chiSquare.toFixed(1)} on ${fit.quality.degreesOfFreedom} degrees of freedom)`,
    );
  }
  return { fit, whyNotGround: null };
}

function groundFitOrReason(points: readonly FitPoint[], ground: GroundKnowledge): FieldFit | null | string {
  try {
    return groundFit(points, ground);
  } catch (error) {
    if (error instanceof UserError) return error.message;
    throw error;
  }
}

function doubled({ radials, lengthM }: Wires): Wires {
  return { radials: 2 * radials, lengthM };
}

function nextWires(fit: FieldFit | null, now: Wires, added: Wires): NextWires {
  const radials = added.radials;
  const wireM = radials * added.lengthM;
  const total = now.radials + radials;
  const after = { radials: total, lengthM: (now.radials * now.lengthM + wireM) / total };
  const gain: Gain | null = fit?.gain(now, after) ?? null;
  return {
    radials,
    wireM,
    gainDb: {
      value: gain?.valueDb ?? null,
      expandedUncertainty: gain === null ? null : 2 * gain.standardUncertaintyDb,
      coverageFactor: 2,
    },
    gainPerWireDb: gain === null ? null : gain.valueDb / radials,
    gainPerMetreDb: gain === null ? null : gain.valueDb / wireM,
  };
}

function nothingMeasured(steps: readonly ProgressStep[]): Advised {
  const why =
    steps.length === 0
      ? 'nothing was measured yet: import or measure a sweep after each handful of wires'
      : steps.every(({ radials }) => radials === 0)
        ? 'no radial lay at any visit, as far as the journal tells: lay some, log them, and measure'
        : 'no sweep over radials crosses X = 0 as a quarter wave does, so that there is no R to go by: sweep wider';
  return { advice: 'measure again', why, doubtful: false, poorGuide: [] };
}
