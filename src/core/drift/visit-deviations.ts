import type { Columns } from './columns.ts';

/** How the visits of a group differ from their mean, or from a straight line over their order. */
export interface VisitDeviations {
  /** Indices, among all bins, of those that are compared. */
  readonly bins: readonly number[];
  /** One for each visit: real parts of those bins, then imaginary ones. Empty where no degree of freedom is left. */
  readonly vectors: readonly Float64Array[];
  /** Vectors less one for their mean, and one for the slope. */
  readonly degrees: number;
}

/** What one stretch shows: where its bins begin among all, the visits' curves and their mean. */
export interface StretchOfVisits {
  readonly from: number;
  readonly visits: readonly Columns[];
  readonly mean: Columns;
}

/**
 * Deviations over the stretches that the most visits cover, all stretches of a day together, since one soil and one
 * connector move them all.
 *
 * @param isSteady - false where a fault may grow from visit to visit: then what the visits share with a straight line over
 *   their order is no scatter, and is taken out
 */
export function visitDeviations(stretches: readonly StretchOfVisits[], isSteady: boolean): VisitDeviations {
  const most = Math.max(...stretches.map(({ visits }) => visits.length));
  const degrees = most - (isSteady ? 1 : 2);
  if (degrees < 1) return { bins: [], vectors: [], degrees: 0 };
  const joint = stretches.filter(({ visits }) => visits.length === most);
  const bins = joint.flatMap(({ from, mean }) => Array.from(mean.re, (_, i) => from + i));
  const vectors = Array.from({ length: most }, (_, visit) => {
    const part = (name: 're' | 'im'): number[] =>
      joint.flatMap(({ visits, mean }) =>
        Array.from(mean[name], (x, i) => ((visits[visit] as Columns)[name][i] as number) - x),
      );
    return Float64Array.from([...part('re'), ...part('im')]);
  });
  return { bins, vectors: isSteady ? vectors : withoutSlope(vectors), degrees };
}

/** Vectors whose mean is zero, less their least-squares line over their order. */
function withoutSlope(vectors: readonly Float64Array[]): Float64Array[] {
  const place = vectors.map((_, i) => i - (vectors.length - 1) / 2);
  const square = place.reduce((sum, x) => sum + x * x, 0);
  const slope = Float64Array.from(vectors[0] as Float64Array, (_, k) =>
    vectors.reduce((sum, vector, i) => sum + ((place[i] as number) * (vector[k] as number)) / square, 0),
  );
  return vectors.map((vector, i) => vector.map((x, k) => x - (place[i] as number) * (slope[k] as number)));
}
