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

/** The columns of a sweep, each made when it is first drawn. */
export function columnsOf(sweep: AnySweep): Columns {
  let sizes: Float64Array | null = null;
  const made = new Map<'swr' | 'returnLossDb', Curve>();
  const column = (name: 'swr' | 'returnLossDb', of: (size: number) => number | null): Curve => {
    sizes ??= reflectionSizes(sweep);
    const known = made.get(name) ?? curveOf(sizes, of);
    made.set(name, known);
    return known;
  };
  return {
    frequencyHz: sweep.frequencyHz,
    get swr() {
      return column('swr', swrOfReflection);
    },
    get returnLossDb() {
      return column('returnLossDb', returnLossDb);
    },
    resistanceOhm: sweep.kind === 'impedance' ? sweep.resistanceOhm : null,
    reactanceOhm: sweep.kind === 'impedance' ? sweep.reactanceOhm : null,
  };
}

/** Numbers where every point has one, which most sweeps do; else with gaps. */
function curveOf(sizes: Float64Array, of: (size: number) => number | null): Curve {
  const curve = new Float64Array(sizes.length);
  for (let i = 0; i < sizes.length; i++) {
    const value = of(sizes[i] as number);
    if (value === null) return Array.from(sizes, of);
    curve[i] = value;
  }
  return curve;
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
