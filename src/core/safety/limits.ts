import { didYouMean } from '../near-miss.ts';
import { quoted } from '../quoted.ts';
import { UserError } from '../user-error.ts';
import { LIMIT_SETS } from './limit-sets.ts';

/** A level that follows a power of the frequency: `[c, p]` is c·f^p with f in MHz. */
export type PowerLaw = readonly [coefficient: number, exponent: number];

/** Levels over a range of frequencies, both ends included: at a shared end the stricter row counts. */
export interface LimitRange {
  readonly fromMhz: number;
  readonly toMhz: number;
  readonly electricVPerM: PowerLaw | null;
  readonly magneticAPerM: PowerLaw | null;
  readonly powerDensityWPerM2: PowerLaw | null;
  readonly status: 'published' | 'memory';
}

/** A set of exposure limits as its text gives it. The law changes: {@link LIMITS_DATE} says when it was read. */
export interface LimitSet {
  readonly id: string;
  readonly title: string;
  /** Whom it covers; only a `public` set may be used for people who did not choose to be there. */
  readonly covers: 'public' | 'informed';
  readonly averagingMinutes: number;
  /** Levels that the mean square over the averaging time is held against (heating). */
  readonly averaged: readonly LimitRange[];
  /** Levels that hold at every moment, so against peak power (nerve stimulation). */
  readonly instantaneous: readonly LimitRange[];
  readonly contactCurrent: {
    readonly fromMhz: number;
    readonly toMhz: number;
    readonly currentA: number;
  } | null;
  readonly source: string;
}

/** The levels of one kind at one frequency, rms; null where the set has none. */
interface Levels {
  readonly electricVPerM: number | null;
  readonly magneticAPerM: number | null;
  readonly powerDensityWPerM2: number | null;
}

/** Levels at one frequency: averaged over time, and at every moment. */
export interface LimitsAtFrequency {
  readonly averaged: Levels;
  readonly instantaneous: Levels;
}

/**
 * A set of limits by its id.
 * @throws UserError `limits-unknown`, with the near miss
 */
export function findLimitSet(id: string, field = 'limits'): LimitSet {
  const found = LIMIT_SETS.find((set) => set.id === id);
  if (found !== undefined) return found;
  const ids = LIMIT_SETS.map((set) => set.id);
  throw new UserError(
    'limits-unknown',
    `needs one of ${ids.join(', ')}, got ${quoted(id)}${didYouMean(id, ids)}`,
    {
      place: { field },
    },
  );
}

/**
 * What a set allows at a frequency.
 * @throws UserError `limits-no-range` where the set says nothing of this frequency
 */
export function limitsAt(set: LimitSet, frequencyHz: number): LimitsAtFrequency {
  const averaged = strictest(set.averaged, frequencyHz / 1e6);
  const instantaneous = strictest(set.instantaneous, frequencyHz / 1e6);
  if (averaged.electricVPerM !== null && averaged.magneticAPerM !== null) return { averaged, instantaneous };
  throw new UserError(
    'limits-no-range',
    `needs a set of limits for ${(frequencyHz / 1e6).toFixed(3)} MHz; ${set.id} has no electric and magnetic levels there`,
    { place: { field: 'limits' } },
  );
}

function strictest(ranges: readonly LimitRange[], frequencyMhz: number): Levels {
  const here = ranges.filter((range) => range.fromMhz <= frequencyMhz && frequencyMhz <= range.toMhz);
  const least = (pick: (range: LimitRange) => PowerLaw | null): number | null => {
    const levels = here.flatMap((range) => {
      const law = pick(range);
      return law === null ? [] : [law[0] * frequencyMhz ** law[1]];
    });
    return levels.length === 0 ? null : Math.min(...levels);
  };
  return {
    electricVPerM: least((range) => range.electricVPerM),
    magneticAPerM: least((range) => range.magneticAPerM),
    powerDensityWPerM2: least((range) => range.powerDensityWPerM2),
  };
}
