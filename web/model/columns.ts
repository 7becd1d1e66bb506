import { onGrid } from '../../src/core/sweep/on-grid.ts';
import { reflectionSizes, returnLossDb, swrOfReflection } from '../../src/core/sweep/reflection.ts';
import type { AnySweep } from '../../src/core/sweep/sweep.ts';

/** A curve as the charts take it: null where there is no value. */
export type Curve = Float64Array | (number | null)[];

/** What the strips show of one sweep, each as long as its frequencies; null for what it cannot give. */
export interface Columns {
  readonly frequencyHz: Float64Array;
  readonly swr: Curve;
  readonly returnLossDb: Curve;
  readonly resistanceOhm: Curve | null;
  readonly reactanceOhm: Curve | null;
}

export type ColumnName = Exclude<keyof Columns, 'frequencyHz'>;

export function columnsOf(sweep: AnySweep): Columns {
  const sizes = reflectionSizes(sweep);
  return {
    frequencyHz: sweep.frequencyHz,
    swr: Array.from(sizes, swrOfReflection),
    returnLossDb: Array.from(sizes, returnLossDb),
    resistanceOhm: sweep.kind === 'impedance' ? sweep.resistanceOhm : null,
    reactanceOhm: sweep.kind === 'impedance' ? sweep.reactanceOhm : null,
  };
}

/** After minus before at the frequencies of `after` that both cover; null for a sweep without R and X. */
export function differenceOf(
  before: AnySweep,
  after: AnySweep,
): { frequencyHz: Float64Array; resistanceOhm: Float64Array; reactanceOhm: Float64Array } | null {
  if (before.kind !== 'impedance' || after.kind !== 'impedance') return null;
  const from = before.frequencyHz[0] as number;
  const to = before.frequencyHz[before.frequencyHz.length - 1] as number;
  const first = after.frequencyHz.findIndex((hz) => hz >= from);
  const last = after.frequencyHz.findLastIndex((hz) => hz <= to);
  if (first < 0 || last - first < 1) return null;
  const frequencyHz = after.frequencyHz.subarray(first, last + 1);
  const onBefore = onGrid(
    { frequencyHz: before.frequencyHz, re: before.resistanceOhm, im: before.reactanceOhm },
    frequencyHz,
  );
  return {
    frequencyHz,
    resistanceOhm: frequencyHz.map(
      (_, i) => (after.resistanceOhm[first + i] as number) - (onBefore.re[i] as number),
    ),
    reactanceOhm: frequencyHz.map(
      (_, i) => (after.reactanceOhm[first + i] as number) - (onBefore.im[i] as number),
    ),
  };
}
