import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';

/** Repeatable random numbers: the same seed gives the same answer on every machine. */
export interface RandomSource {
  /** 0 (included) to 1 (excluded). */
  uniform(): number;
  /** Standard normal. */
  normal(): number;
  /** A whole number from 0 to count − 1. */
  below(count: number): number;
}

/** Normal deviates by the polar method (G. Marsaglia and T. A. Bray, SIAM Review 6, 1964). */
export function createRandomSource(seed: number): RandomSource {
  const generator = xoroshiro128plus(seed);
  const uniform = (): number => uniformFloat64(generator);
  let spare: number | null = null;
  return {
    uniform,
    below: (count) => Math.floor(uniform() * count),
    normal: () => {
      if (spare !== null) {
        const value = spare;
        spare = null;
        return value;
      }
      for (;;) {
        const [u, v] = [2 * uniform() - 1, 2 * uniform() - 1];
        const s = u * u + v * v;
        if (s > 0 && s < 1) {
          const factor = Math.sqrt((-2 * Math.log(s)) / s);
          spare = v * factor;
          return u * factor;
        }
      }
    },
  };
}
