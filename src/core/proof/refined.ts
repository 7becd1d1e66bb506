import { reflectionOfSwr, swrOfReflection } from '../sweep/reflection.ts';
import { type AnySweep, createScalarSweep, createSweep } from '../sweep/sweep.ts';

/**
 * A sweep with a point in the middle of each step, on the cubic through the four nearest points (the parabola at the
 * ends). Figures that change by this were read off a grid too coarse for straight lines between its points.
 */
export function refined<S extends AnySweep>(sweep: S): S;
export function refined(sweep: AnySweep): AnySweep {
  const { referenceOhm, plane } = sweep;
  const frequencyHz = withMiddles(sweep.frequencyHz, (i) => middle(sweep.frequencyHz, i));
  const between = (column: Float64Array): Float64Array =>
    withMiddles(column, (i) => cubicMiddle(sweep.frequencyHz, column, i));
  if (sweep.kind === 'impedance') {
    const { resistanceOhm, reactanceOhm } = sweep;
    return createSweep({
      frequencyHz,
      resistanceOhm: between(resistanceOhm),
      reactanceOhm: between(reactanceOhm),
      referenceOhm,
      plane,
    });
  }
  const sizes = between(sweep.swr.map(reflectionOfSwr));
  const swr = sizes.map((size) => swrOfReflection(Math.abs(size)) ?? Number.NaN);
  return createScalarSweep({ frequencyHz, swr, referenceOhm, plane });
}

/** Points kept on each side of a range, as much as a cubic reaches. */
const NEIGHBOURS = 2;

/** The part of a sweep in a range, with the neighbours that interpolation there needs. */
export function around(sweep: AnySweep, range: { readonly fromHz: number; readonly toHz: number }): AnySweep {
  const f = sweep.frequencyHz;
  const below = f.findLastIndex((hz) => hz <= range.fromHz);
  const above = f.findIndex((hz) => hz >= range.toHz);
  const from = Math.max(0, below - NEIGHBOURS);
  const to = above < 0 ? f.length : Math.min(f.length, above + NEIGHBOURS + 1);
  if (to - from < 2 || to - from === f.length) return sweep;
  const cut = (column: Float64Array): Float64Array => column.slice(from, to);
  return sweep.kind === 'impedance'
    ? createSweep({
        ...sweep,
        frequencyHz: cut(f),
        resistanceOhm: cut(sweep.resistanceOhm),
        reactanceOhm: cut(sweep.reactanceOhm),
      })
    : createScalarSweep({ ...sweep, frequencyHz: cut(f), swr: cut(sweep.swr) });
}

function withMiddles(column: Float64Array, middleAfter: (index: number) => number): Float64Array {
  const n = column.length;
  return Float64Array.from({ length: 2 * n - 1 }, (_, i) =>
    i % 2 === 0 ? (column[i / 2] as number) : middleAfter((i - 1) / 2),
  );
}

function middle(column: Float64Array, index: number): number {
  return ((column[index] as number) + (column[index + 1] as number)) / 2;
}

/** Lagrange's polynomial through up to four points around a step, in the middle of it. */
function cubicMiddle(x: Float64Array, y: Float64Array, index: number): number {
  const from = Math.max(0, index - 1);
  const to = Math.min(x.length - 1, index + 2);
  const at = middle(x, index);
  let sum = 0;
  for (let i = from; i <= to; i++) {
    let weight = 1;
    for (let j = from; j <= to; j++) {
      if (j !== i) weight *= (at - (x[j] as number)) / ((x[i] as number) - (x[j] as number));
    }
    sum += weight * (y[i] as number);
  }
  return sum;
}
