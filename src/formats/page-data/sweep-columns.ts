import { createSweep, type Sweep } from '../../core/sweep/sweep.ts';
import type { PageSweep, PageSweeps } from './types.ts';

/** A tenth of a milliohm is at most one millionth of reflection in 50 ohm, below what any instrument resolves. */
const STEPS_PER_OHM = 1e4;

/** Packs sweeps for a page, each set of frequencies once. */
export class SweepPacker {
  readonly #grids: number[][] = [];
  readonly #known = new Map<string, number>();

  get grids(): readonly (readonly number[])[] {
    return this.#grids;
  }

  pack({ frequencyHz, resistanceOhm, reactanceOhm, plane, referenceOhm }: Sweep): PageSweep {
    return {
      grid: this.#gridOf(frequencyHz),
      plane,
      referenceOhm,
      resistanceOhm: Array.from(resistanceOhm, rounded),
      reactanceOhm: Array.from(reactanceOhm, rounded),
    };
  }

  #gridOf(frequencyHz: Float64Array): number {
    const key = frequencyHz.join();
    const known = this.#known.get(key);
    if (known !== undefined) return known;
    this.#known.set(key, this.#grids.length);
    return this.#grids.push(Array.from(frequencyHz)) - 1;
  }
}

function rounded(ohm: number): number {
  return Math.round(ohm * STEPS_PER_OHM) / STEPS_PER_OHM;
}

/**
 * The sweep behind a packed one.
 * @throws UserError as `createSweep`, and so for a grid that is not there
 */
export function unpackSweep({ grids }: PageSweeps, packed: PageSweep): Sweep {
  return createSweep({
    frequencyHz: Float64Array.from(grids[packed.grid] ?? []),
    resistanceOhm: Float64Array.from(packed.resistanceOhm),
    reactanceOhm: Float64Array.from(packed.reactanceOhm),
    referenceOhm: packed.referenceOhm,
    plane: packed.plane,
  });
}
