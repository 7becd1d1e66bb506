import type { ReferencePlane } from '../record.ts';
import type { Antenna } from '../site.ts';
import type { Measure } from './figures.ts';
import { holmAdjusted } from './holm.ts';
import type { FigureDifference } from './pair.ts';
import { CONFIDENCE } from './student.ts';

/** What a comparison may claim of one figure. */
export type Verdict = 'improved' | 'worse' | 'not shown';

/** Which way a figure must go to count as improved: 1 up, −1 down, 0 neither, with the reason. */
export interface Direction {
  readonly sign: 1 | -1 | 0;
  /** Whether it speaks of loss, or of the match, which is no proof of less loss. */
  readonly tells: 'loss' | 'match';
  readonly meaning: string;
}

/**
 * What an improvement of a figure means, the antenna's element being the same.
 *
 * Resistance at X = 0 of a vertical up to a quarter wave is radiation plus loss, so that less is better. The
 * three SWR figures get the plain numeric verdict, which says how the match changed and nothing of loss. A
 * resonance has no better side. A bandwidth has none either: beside a lossy ground it widens.
 *
 * @param circumstances - the site's word on the antenna, null when there is none; whether X rises through zero at
 *   all visits; where they were measured
 */
export function directionOf(measure: Measure, circumstances: Circumstances): Direction {
  return { ...meaningOf(measure, circumstances), tells: MATCH.includes(measure) ? 'match' : 'loss' };
}

const MATCH: readonly Measure[] = ['minSwr', 'worstSwr', 'meanReturnLossDb'];

interface Circumstances {
  readonly kind: Antenna['kind'] | null;
  readonly series: boolean;
  readonly plane: ReferencePlane;
}

function meaningOf(measure: Measure, { kind, series, plane }: Circumstances): Omit<Direction, 'tells'> {
  switch (measure) {
    case 'resonanceHz':
      return { sign: 0, meaning: 'a resonance that moves is neither better nor worse' };
    case 'resistanceAtResonanceOhm':
      if (plane === 'shack') {
        return { sign: 0, meaning: 'R in the shack is that of the line and the antenna together' };
      }
      if (kind === 'half-wave') {
        return { sign: 0, meaning: 'at the base of a half-wave, R at X = 0 does not tell loss from height' };
      }
      return series
        ? { sign: -1, meaning: 'less resistance with the same element is less loss' }
        : { sign: 0, meaning: 'R at a parallel resonance (X falling) does not tell loss' };
    case 'minSwr':
    case 'worstSwr':
      return { sign: -1, meaning: 'the match, which is no proof: a corroding joint lowers the SWR too' };
    case 'meanReturnLossDb':
      return {
        sign: 1,
        meaning: 'the match, which is no proof: a corroding joint raises the return loss too',
      };
    case 'swr2BandwidthHz':
      return { sign: 0, meaning: 'a wider bandwidth usually means more loss, but the match counts as well' };
    case 'qualityFactor':
      return { sign: 0, meaning: 'Q follows R and the element together' };
  }
}

/** A difference that is to be judged together with others. */
export interface Judgeable {
  readonly difference: FigureDifference | null;
  readonly direction: Direction;
  /** False where no repeats stand behind it: nothing is claimed then. */
  readonly claimable: boolean;
}

/** A verdict with the probability behind it. */
export interface Judgement {
  readonly verdict: Verdict;
  /** After Holm's correction; null where nothing was tested. */
  readonly probability: number | null;
}

/**
 * Judges several differences at once, with Holm's correction over those that could be claimed. What lies within its
 * own expanded uncertainty is never claimed.
 */
export function judgeTogether(differences: readonly Judgeable[]): Judgement[] {
  const tested = differences.filter(isTested);
  const adjusted = holmAdjusted(tested.map(({ difference }) => difference?.probability as number));
  return differences.map((one) => {
    const index = tested.indexOf(one);
    const probability = adjusted[index] ?? null;
    const { value, expandedUncertainty } = one.difference?.difference ?? {};
    const within = Math.abs(value ?? 0) <= (expandedUncertainty ?? 0);
    if (probability === null || probability > 1 - CONFIDENCE || within)
      return { verdict: 'not shown', probability };
    const up = (value ?? 0) > 0 ? 1 : -1;
    return { verdict: up === one.direction.sign ? 'improved' : 'worse', probability };
  });
}

function isTested({ difference, direction, claimable }: Judgeable): boolean {
  return claimable && direction.sign !== 0 && difference !== null && difference.probability !== null;
}
