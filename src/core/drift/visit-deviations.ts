import type { Columns } from './columns.ts';

/** How the visits of a group differ from their mean. */
export interface VisitDeviations {
  /** Indices, among all bins, of those that are compared. */
  readonly bins: readonly number[];
  /** One for each visit: real parts of those bins, then imaginary ones. Empty for less than two visits. */
  readonly vectors: readonly Float64Array[];
  /** Vectors less one for their mean. */
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
 */
export function visitDeviations(stretches: readonly StretchOfVisits[]): VisitDeviations {
  const most = Math.max(...stretches.map(({ visits }) => visits.length));
  if (most < 2) return { bins: [], vectors: [], degrees: 0 };
  const joint = stretches.filter(({ visits }) => visits.length === most);
  const bins = joint.flatMap(({ from, mean }) => Array.from(mean.re, (_, i) => from + i));
  const vectors = Array.from({ length: most }, (_, visit) => {
    const part = (name: 're' | 'im'): number[] =>
      joint.flatMap(({ visits, mean }) =>
        Array.from(mean[name], (x, i) => ((visits[visit] as Columns)[name][i] as number) - x),
      );
    return Float64Array.from([...part('re'), ...part('im')]);
  });
  return { bins, vectors, degrees: most - 1 };
}
