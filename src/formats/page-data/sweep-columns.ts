import { createSweep, type Sweep } from '../../core/sweep/sweep.ts';
import { UserError } from '../../core/user-error.ts';
import { readSteps, writeSteps } from './steps-text.ts';
import type { PageSweep, PageSweeps } from './types.ts';

/** A milliohm is at most a hundred-thousandth of reflection in 50 ohm, a hundredth of what cheap instruments resolve. */
const STEPS_PER_OHM = 1e3;

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
      resistance: writeSteps(resistanceOhm, STEPS_PER_OHM),
      reactance: writeSteps(reactanceOhm, STEPS_PER_OHM),
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

/** @throws UserError `sweep-lengths-differ` */
function columnOf(text: string, length: number): Float64Array {
  const column = new Float64Array(length);
  const count = readSteps(text, column, STEPS_PER_OHM);
  if (count === length) return column;
  throw new UserError('sweep-lengths-differ', `${length} frequencies but ${count} values of ohms`);
}

/**
 * The sweeps behind packed ones, visit by visit. Sweeps of one grid share its frequencies.
 * @throws UserError as `createSweep`, and so for a grid that is not there
 */
export function unpackVisits({
  grids,
  visits,
}: Pick<PageSweeps, 'grids' | 'visits'>): { shots: Sweep[]; referenceLoad: Sweep[] }[] {
  const frequenciesHz = grids.map((grid) => new Float64Array(grid));
  const unpack = ({ grid, resistance, reactance, referenceOhm, plane }: PageSweep): Sweep => {
    const frequencyHz = frequenciesHz[grid] ?? new Float64Array(0);
    return createSweep({
      frequencyHz,
      resistanceOhm: columnOf(resistance, frequencyHz.length),
      reactanceOhm: columnOf(reactance, frequencyHz.length),
      referenceOhm,
      plane,
    });
  };
  return visits.map(({ shots, referenceLoad }) => ({
    shots: shots.map(unpack),
    referenceLoad: referenceLoad.map(unpack),
  }));
}
