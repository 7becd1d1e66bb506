import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';

/** Seeded randomness: the same seed gives the same faults and the same noise. */
export interface Dice {
  /** True with this probability. */
  happens(probability: number): boolean;
  /** A whole number from 0 to below the limit. */
  below(limit: number): number;
  /** Normally distributed, mean 0, standard deviation 1 (G. Box and M. Muller, Ann. Math. Stat. 29, 1958). */
  normal(): number;
}

export function seededDice(seed: number): Dice {
  const generator = xoroshiro128plus(seed);
  const uniform = (): number => uniformFloat64(generator);
  return {
    happens: (probability) => probability > 0 && uniform() < probability,
    below: (limit) => Math.floor(uniform() * limit),
    normal: () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform()),
  };
}
