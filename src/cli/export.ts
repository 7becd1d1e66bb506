import { readFile } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import { type Command, Option } from 'commander';
import { fieldStateAt } from '../core/layout/field-state.ts';
import type { ReferencePlane, ShotRecord, VisitRecord } from '../core/record.ts';
import type { Sweep } from '../core/sweep/sweep.ts';
import { UserError } from '../core/user-error.ts';
import { writeCanonical } from '../formats/canonical.ts';
import { systemWords } from '../formats/system-words.ts';
import { writeTouchstone } from '../formats/touchstone/write.ts';
import { plural } from '../formats/words.ts';
import { createDurably, makeFolder, REAL_DISK } from '../logbook/disk.ts';
import { type Logbook, loadShot, movedToPlane } from '../logbook/logbook.ts';
import { parseTime } from '../logbook/time.ts';
import { printWithoutLost } from './failure.ts';
import type { Io } from './io.ts';
import { addLogbookOptions, type LogbookOptions } from './logbook-options.ts';
import { lostNotes } from './logbook-visits.ts';
import { parseNumbers } from './numbers.ts';
import { openOwnLogbook } from './own-logbook.ts';

interface ExportOptions extends LogbookOptions {
  readonly visit?: string[];
  readonly all?: boolean;
  readonly since?: string;
  readonly format: 'touchstone' | 'csv';
  readonly out: string;
  readonly plane?: ReferencePlane;
}

interface ExportedFile {
  readonly file: string;
  readonly visit: number;
  readonly shot: number;
  readonly plane: ReferencePlane;
  readonly text: string;
}

/** `turfwire export`: writes stored sweeps as files for other programs. */
export function register(command: Command, io: Io): void {
  addLogbookOptions(command)
    .option('--visit <NUMBERS...>', 'visits by number, such as 3-5,8')
    .option('--all', 'every visit')
    .option('--since <TIME>', 'visits from this time on, ISO 8601 with zone')
    .addOption(
      new Option('--format <FORMAT>', 'of the files').choices(['touchstone', 'csv']).default('touchstone'),
    )
    .addOption(
      new Option('--plane <PLANE>', 'move the sweeps there (default: where each was measured)').choices([
        'feedpoint',
        'shack',
      ]),
    )
    .requiredOption('--out <DIR>', 'folder for the files; nothing in it is overwritten')
    .addHelpText(
      'after',
      '\nExample:\n  turfwire export --visit 1-3 --format touchstone --out sweeps-of-spring',
    )
    .action((options: ExportOptions) => exportSweeps(io, options));
}

async function exportSweeps(io: Io, options: ExportOptions): Promise<void> {
  const logbook = await openOwnLogbook(io, options);
  const out = resolve(io.cwd, options.out);
  const { files, lost } = await exportedFiles(logbook, visitsWanted(logbook, options, io.now()), options);
  if (files.length === 0 && lost[0] !== undefined) throw lost[0];
  // Every name is looked at before the first file is written, so that an export is whole or not begun.
  const missing: ExportedFile[] = [];
  for (const file of files) if (!(await isThere(out, file))) missing.push(file);
  if (missing.length > 0) await makeFolder(REAL_DISK, out);
  for (const { file, text } of missing) await createDurably(REAL_DISK, join(out, file), Buffer.from(text));
  const notes = lostNotes(lost);
  printWithoutLost(
    io,
    {
      json: {
        out,
        files: files.map((each) => {
          const { file, visit, shot, plane } = each;
          return { file, visit, shot, plane, written: missing.includes(each) };
        }),
        notes,
      },
      text: [writtenText(missing.length, files.length - missing.length, out), ...notes].join('\n'),
    },
    lost,
    options.json === true,
  );
}

/** What was done, and what was there from an earlier export. */
function writtenText(written: number, there: number, out: string): string {
  if (written === 0) return `Nothing written: ${plural(there, 'sweep')} there already, in ${out}.`;
  const beside = there === 0 ? '' : `; ${there} there already`;
  return `${plural(written, 'sweep')} written to ${out}${beside}.`;
}

/** Every file of the visits; a sweep that is gone or changed is left out and told of. */
async function exportedFiles(
  logbook: Logbook,
  visits: readonly VisitRecord[],
  options: ExportOptions,
): Promise<{ readonly files: readonly ExportedFile[]; readonly lost: readonly UserError[] }> {
  const files: ExportedFile[] = [];
  const lost: UserError[] = [];
  for (const visit of visits) {
    for (const shot of visit.shots) {
      const stored = await loadShot(logbook, shot).catch((error: unknown) => {
        if (!(error instanceof UserError)) throw error;
        lost.push(error);
        return null;
      });
      if (stored !== null) files.push(exportedFile(logbook, visit, shot, stored, options));
    }
  }
  return { files, lost };
}

function visitsWanted({ visits }: Logbook, options: ExportOptions, now: Date): readonly VisitRecord[] {
  const { visit: numbers, all, since } = options;
  if ([numbers, all, since].filter((given) => given !== undefined).length !== 1) {
    throw new UserError('export-selection', 'needs one of --visit, --all and --since', {
      kind: 'command-line',
    });
  }
  if (all) return visits;
  if (since !== undefined) {
    const from = Date.parse(parseTime(since, now, '--since'));
    return visits.filter(({ time }) => Date.parse(time) >= from);
  }
  return parseNumbers(numbers ?? [], '--visit').map((wanted) => {
    const found = visits.find(({ visit }) => visit === wanted);
    if (found !== undefined) return found;
    throw new UserError('visit-unknown', `there is no visit ${wanted}`);
  });
}

function exportedFile(
  logbook: Logbook,
  visit: VisitRecord,
  shot: ShotRecord,
  stored: Sweep,
  { format, plane }: ExportOptions,
): ExportedFile {
  const sweep =
    plane === undefined || shot.target === 'reference-load'
      ? stored
      : movedToPlane(logbook, visit, stored, plane);
  const what = shot.target === 'antenna' ? 'shot' : 'reference-load';
  const stem = `visit-${String(visit.visit).padStart(4, '0')}-${what}-${shot.shot}`;
  return {
    file: `${stem}.${format === 'touchstone' ? 's1p' : 'csv'}`,
    visit: visit.visit,
    shot: shot.shot,
    plane: sweep.plane,
    text:
      format === 'csv'
        ? writeCanonical(sweep)
        : writeTouchstone(sweep, { comments: comments(logbook, visit, shot, sweep) }),
  };
}

function comments(
  { site, fieldStates }: Logbook,
  visit: VisitRecord,
  shot: ShotRecord,
  sweep: Sweep,
): string[] {
  const { radials } = fieldStateAt(fieldStates, visit.time);
  return [
    site.name,
    `visit ${visit.visit}, shot ${shot.shot}, ${visit.time}`,
    shot.target === 'antenna'
      ? `antenna, at the ${sweep.plane}, over ${radials.length} radials`
      : 'reference load',
  ];
}

/**
 * Whether a file with this very content is there already.
 * @throws UserError `file-exists` when another one is
 */
async function isThere(out: string, { file, text }: ExportedFile): Promise<boolean> {
  const path = join(out, file);
  const there = await readFile(path, 'utf8').catch((error: NodeJS.ErrnoException) => {
    if (error.code === 'ENOENT') return null;
    throw new UserError('file-unreadable', `cannot be read: ${systemWords(error)}`, {
      place: { file: path },
      cause: error,
    });
  });
  if (there === null || there === text) return there !== null;
  throw new UserError('file-exists', 'another file of that name is there: choose another folder', {
    place: { file: path },
  });
}
