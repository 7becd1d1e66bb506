import type { ReferencePlane } from '../src/core/record.ts';
import type { AnySweep } from '../src/core/sweep/sweep.ts';
import { UserError } from '../src/core/user-error.ts';
import type { PageSite } from '../src/formats/page-data.ts';
import { type Problem, ProblemList } from '../src/formats/problem.ts';
import type { ReadOptions } from '../src/formats/read-options.ts';
import { readSweeps } from '../src/formats/read-sweeps.ts';
import { toFeedpoint } from '../src/formats/to-feedpoint.ts';

/** A file as it was read, with what the user chose for it so far. */
export interface ReadFile {
  readonly file: File;
  readonly chosen: ReadOptions;
  /** At the feed point, where the plane and the site allow it. */
  readonly sweeps: readonly AnySweep[];
  /** Whether they had to be moved there. */
  readonly isMoved: boolean;
  readonly problems: readonly Problem[];
}

/** Reads a file as the commands would with `--plane`. */
export async function readFile(
  file: File,
  chosen: ReadOptions,
  plane: ReferencePlane,
  site: PageSite | null,
): Promise<ReadFile> {
  const bytes = new Uint8Array(await file.arrayBuffer());
  const instrumentReferenceOhm = site?.instrument.referenceOhm ?? undefined;
  const read = readSweeps(bytes, file.name, { instrumentReferenceOhm, plane, ...chosen });
  const problems = new ProblemList();
  const sweeps = read.sweeps.map((sweep) => {
    try {
      return toFeedpoint(sweep, site, problems);
    } catch (error) {
      if (!(error instanceof UserError)) throw error;
      problems.refuseBecause(error);
      return sweep;
    }
  });
  const isMoved = plane === 'shack' && sweeps.some((sweep) => sweep.plane === 'feedpoint');
  return { file, chosen, sweeps, isMoved, problems: [...read.problems, ...problems.list()] };
}
