import { basename } from 'node:path';
import type { ReferencePlane } from '../core/record.ts';
import type { Site } from '../core/site.ts';
import type { NewShot } from '../logbook/logbook.ts';
import type { Io } from './io.ts';
import { type LoadedFile, loadFiles } from './load-files.ts';
import { plainText } from './plain-text.ts';
import { problemText } from './problem-text.ts';
import type { SweepFlags } from './sweep-flags.ts';

/** A file that goes to `refused/` instead of into the logbook. */
interface RefusedFile {
  readonly file: string;
  /** Null when there was nothing to read. */
  readonly bytes: Uint8Array | null;
  readonly why: string;
}

/** A visit as its files tell it. */
export interface VisitToImport {
  readonly time: string;
  readonly shots: readonly (NewShot & { readonly file: string })[];
  readonly refused: readonly RefusedFile[];
}

/** Reads files of one visit at the plane where they were measured; notes go to `io.err`. */
export async function readVisitFiles(
  io: Io,
  files: readonly string[],
  target: NewShot['target'],
  flags: SweepFlags,
  site: Site,
): Promise<Omit<VisitToImport, 'time'>> {
  // Without a feed line nothing is moved: the logbook keeps what the instrument saw.
  const loaded = await loadFiles(io, files, { ...flags, site: { ...site, feedline: null } });
  const shots: (NewShot & { file: string })[] = [];
  const refused: RefusedFile[] = [];
  for (const file of loaded) {
    const why = whyNot(file);
    if (why !== null) {
      refused.push({ file: file.file, bytes: file.bytes, why });
      continue;
    }
    for (const problem of file.problems) io.err(problemText(problem, file.file));
    for (const sweep of file.sweeps) {
      if (sweep.kind !== 'impedance') continue;
      const plane: ReferencePlane = flags.plane ?? sweep.plane;
      const source = file.file === '-' ? 'standard input' : basename(file.file);
      shots.push({ file: file.file, sweep, plane, target, source });
    }
  }
  return { shots, refused };
}

/** Why a file cannot be stored, or null when it can. Half a file is none: what was read of it would mislead. */
function whyNot({ file, sweeps, problems }: LoadedFile): string | null {
  const refusals = problems.filter(({ severity }) => severity === 'refused');
  if (refusals.length > 0) {
    // It is kept in a file, which may be shown on a terminal.
    return plainText(refusals.map((problem) => problemText(problem, file)).join('\n'));
  }
  if (sweeps.every(({ kind }) => kind === 'impedance')) return null;
  return `${plainText(file)}: holds only SWR, and a logbook needs R and X, which SWR cannot give; \`turfwire read\` shows it`;
}
