import { averageShots } from '../../src/core/sweep/repeats.ts';
import type { AnySweep, Sweep } from '../../src/core/sweep/sweep.ts';
import { UserError } from '../../src/core/user-error.ts';
import { type PageSweeps, unpackVisits } from '../../src/formats/page-data.ts';
import { type Columns, columnsOf } from './columns.ts';

/** The shots of one visit as one curve that can be laid over others. */
export interface Layer {
  /** For the address and for form fields: `16` for a visit, `file-1` for a file that was dropped. */
  readonly id: string;
  readonly label: string;
  /** ISO 8601 with zone; null for loose files. */
  readonly time: string | null;
  readonly origin: 'logbook' | 'file' | 'instrument';
  /** Radials that lay there then; null where nobody knows. */
  readonly radials: number | null;
  readonly wireM: number | null;
  /** Which state of the field, counted by the page's data; null where nobody knows. */
  readonly field: number | null;
  /** Whether it stands for the antenna as it should be. */
  readonly counts: boolean;
  /** Swept in the shack and moved to the feed point by this page. */
  readonly isMoved: boolean;
  readonly shots: readonly AnySweep[];
  readonly referenceLoad: readonly Sweep[];
  /** The mean of the shots. */
  readonly sweep: AnySweep;
  readonly columns: Columns;
}

/** The visits of a logbook as layers, oldest first. */
export function layersOfLogbook(sweeps: PageSweeps): Layer[] {
  const unpacked = unpackVisits(sweeps);
  return sweeps.visits.map(({ visit, time, radials, wireM, field, counts }, i) =>
    layer({
      id: String(visit),
      label: `visit ${visit}`,
      time,
      origin: 'logbook',
      radials,
      wireM,
      field,
      counts,
      isMoved: false,
      shots: unpacked[i]?.shots ?? [],
      referenceLoad: unpacked[i]?.referenceLoad ?? [],
    }),
  );
}

/** Shots that did not come from the logbook. */
export function looseLayer(
  id: string,
  label: string,
  origin: 'file' | 'instrument',
  shots: readonly AnySweep[],
  isMoved = false,
): Layer {
  return layer({
    id,
    label,
    time: null,
    origin,
    radials: null,
    wireM: null,
    field: null,
    counts: true,
    isMoved,
    shots,
    referenceLoad: [],
  });
}

function layer(source: Omit<Layer, 'sweep' | 'columns'>): Layer {
  const sweep = meanOf(source.shots);
  let columns: Columns | null = null;
  return {
    ...source,
    sweep,
    get columns() {
      columns ??= columnsOf(sweep);
      return columns;
    },
  };
}

/** Shots that cannot be averaged (SWR alone, no common frequencies) are shown by the first of them. */
function meanOf(shots: readonly AnySweep[]): AnySweep {
  const first = shots[0];
  if (first === undefined) throw new Error('a layer has at least one shot');
  const withPhase = shots.filter((shot): shot is Sweep => shot.kind === 'impedance');
  if (withPhase.length < shots.length) return first;
  try {
    return averageShots(withPhase).mean;
  } catch (error) {
    if (error instanceof UserError) return first;
    throw error;
  }
}
