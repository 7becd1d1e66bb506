import type { AnySweep } from '../core/sweep/sweep.ts';
import type { Problem } from '../formats/problem.ts';
import { groupIntoVisits } from '../formats/visits.ts';
import type { Io } from './io.ts';
import { loadFiles, type SweepInputOptions } from './load-files.ts';
import { problemText, refusalOf } from './problem-text.ts';

export type { SweepInputOptions } from './load-files.ts';

/** The shots of one visit out of loose files. */
export interface LoadedVisit {
  readonly label: string;
  readonly files: readonly string[];
  /** At the feed point where the options and the site allow it; see each sweep's `plane`. */
  readonly shots: readonly AnySweep[];
  readonly problems: readonly Problem[];
}

/**
 * Loads loose files as visits (see {@link groupIntoVisits}); notes go to `io.err`.
 *
 * @param files - paths, or `-` for standard input
 * @throws UserError when a file is missing, or anything in it was refused: figures from half a file mislead
 */
export async function loadVisits(
  io: Io,
  files: readonly string[],
  options: SweepInputOptions,
): Promise<LoadedVisit[]> {
  const loaded = await loadFiles(io, files, options);
  for (const { file, problems } of loaded) {
    const refusal = refusalOf(problems, file);
    if (refusal !== null) throw refusal;
    for (const problem of problems) io.err(problemText(problem, file));
  }
  return groupIntoVisits(loaded.map(({ file }) => file)).map(({ label, names }) => {
    const own = names.flatMap((name) => loaded.filter(({ file }) => file === name));
    return {
      label,
      files: names,
      shots: own.flatMap(({ sweeps }) => sweeps),
      problems: own.flatMap(({ problems }) => problems),
    };
  });
}
