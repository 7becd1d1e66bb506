import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';

/** A seeded source of numbers for generators. */
export interface Random {
  /** Even between two bounds. */
  between(from: number, to: number): number;
  /** Even on a logarithmic scale between two positive bounds. */
  logBetween(from: number, to: number): number;
  normal(sd?: number): number;
  pick<T>(items: readonly T[]): T;
  chance(probability: number): boolean;
}

export function random(seed: number): Random {
  const generator = xoroshiro128plus(seed);
  // The first outputs of neighbouring seeds are alike.
  for (let i = 0; i < 20; i++) uniformFloat64(generator);
  const uniform = (): number => uniformFloat64(generator);
  return {
    between: (from, to) => from + (to - from) * uniform(),
    logBetween: (from, to) => from * (to / from) ** uniform(),
    // Box–Muller
    normal: (sd = 1) => sd * Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform()),
    pick: (items) => items[Math.floor(uniform() * items.length)] as (typeof items)[number],
    chance: (probability) => uniform() < probability,
  };
}
