import { createSweep, type Sweep } from '../../core/sweep/sweep.ts';
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
      resistance: stepsOf(resistanceOhm),
      reactance: stepsOf(reactanceOhm),
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

/** Neighbouring points differ by little, so steps are short to write and quick to read. */
function stepsOf(columnOhm: Float64Array): number[] {
  let last = 0;
  return Array.from(columnOhm, (ohm) => {
    const milliohm = Math.round(ohm * STEPS_PER_OHM);
    const step = milliohm - last;
    last = milliohm;
    return step;
  });
}

function columnOf(steps: readonly number[]): Float64Array {
  const column = new Float64Array(steps.length);
  let milliohm = 0;
  for (let i = 0; i < steps.length; i++) {
    milliohm += steps[i] as number;
    column[i] = milliohm / STEPS_PER_OHM;
  }
  return column;
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
  const unpack = ({ grid, resistance, reactance, referenceOhm, plane }: PageSweep): Sweep =>
    createSweep({
      frequencyHz: frequenciesHz[grid] ?? new Float64Array(0),
      resistanceOhm: columnOf(resistance),
      reactanceOhm: columnOf(reactance),
      referenceOhm,
      plane,
    });
  return visits.map(({ shots, referenceLoad }) => ({
    shots: shots.map(unpack),
    referenceLoad: referenceLoad.map(unpack),
  }));
}
