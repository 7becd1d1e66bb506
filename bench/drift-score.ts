import { CAUSES, type CauseName } from '../src/core/drift/cause.ts';
import { differentiate } from '../src/core/drift/differential.ts';
import { type DriftCase, generateCase } from '../test/support/drift/generate-case.ts';
import type { Variant } from '../test/support/drift/variants.ts';

/** How the differential diagnosis does on generated cases. */
export interface DriftScore {
  readonly cases: number;
  readonly confusion: Readonly<Record<CauseName, Readonly<Record<CauseName, number>>>>;
  readonly rightOverall: number;
  readonly rightMediumAndLarge: number;
  readonly falseAlarms: number;
  /** Expected calibration error over ten equal bins of the top probability. */
  readonly calibrationError: number;
  readonly reliability: readonly {
    readonly count: number;
    readonly stated: number;
    readonly right: number;
  }[];
  /** 90th percentile of what the joint's resistance is off, in units of its allowance (0.6 Ω or 10 %). */
  readonly jointError: number;
  /** 90th percentile of what the element's length is off, per cent. */
  readonly lengthError: number;
  /** Share of estimates within their expanded uncertainty, joint and element. */
  readonly covered: number;
  readonly secondsPerCase: number;
}

export interface ScoredCase {
  readonly truth: DriftCase;
  readonly top: CauseName;
  readonly probability: number;
}

/** Runs cases first … first + count − 1 of a variant. */
export function scoreVariant(
  variant: Variant,
  first: number,
  count: number,
  onCase?: (seed: number, scored: ScoredCase) => void,
): DriftScore {
  const confusion = Object.fromEntries(
    CAUSES.map((cause) => [cause, Object.fromEntries(CAUSES.map((other) => [other, 0]))]),
  ) as Record<CauseName, Record<CauseName, number>>;
  const bins = Array.from({ length: 10 }, () => ({ count: 0, stated: 0, right: 0 }));
  const joint: number[] = [];
  const length: number[] = [];
  let [right, rightLarge, large, unchanged, alarms, covered, seconds] = [0, 0, 0, 0, 0, 0, 0];
  for (let seed = first; seed < first + count; seed++) {
    const truth = generateCase(variant, seed);
    const started = performance.now();
    const { causes } = differentiate(truth);
    seconds += (performance.now() - started) / 1000;
    const top = causes[0] as (typeof causes)[0];
    onCase?.(seed, { truth, top: top.cause, probability: top.probability });
    const hit = top.cause === truth.cause;
    confusion[truth.cause][top.cause]++;
    right += hit ? 1 : 0;
    if (truth.cause === 'none') {
      unchanged++;
      alarms += hit ? 0 : 1;
    } else if (truth.size !== 'small') {
      large++;
      rightLarge += hit ? 1 : 0;
    }
    const bin = bins[Math.min(9, Math.floor(top.probability * 10))] as (typeof bins)[0];
    bin.count++;
    bin.stated += top.probability;
    bin.right += hit ? 1 : 0;
    if (hit && truth.truth !== null && (top.cause === 'series-joint' || top.cause === 'element-length')) {
      const off = Math.abs(top.amplitude.mean - truth.truth);
      if (top.cause === 'series-joint') joint.push(off / Math.max(0.6, 0.1 * truth.truth));
      else length.push(off);
      covered += off <= 2 * top.amplitude.sd ? 1 : 0;
    }
  }
  return {
    cases: count,
    confusion,
    rightOverall: right / count,
    rightMediumAndLarge: rightLarge / large,
    falseAlarms: alarms / unchanged,
    calibrationError: bins.reduce((sum, bin) => sum + Math.abs(bin.stated - bin.right), 0) / count,
    reliability: bins.map((bin) => ({
      count: bin.count,
      stated: bin.stated / bin.count,
      right: bin.right / bin.count,
    })),
    jointError: percentile90(joint),
    lengthError: percentile90(length),
    covered: covered / (joint.length + length.length),
    secondsPerCase: seconds / count,
  };
}

function percentile90(values: number[]): number {
  return values.sort((a, b) => a - b)[Math.floor(values.length * 0.9)] ?? Number.NaN;
}
