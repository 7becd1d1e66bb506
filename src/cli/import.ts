import { stat } from 'node:fs/promises';
import { resolve } from 'node:path';
import type { Command } from 'commander';
import { UserError } from '../core/user-error.ts';
import { groupIntoVisits } from '../formats/visits.ts';
import { plural } from '../formats/words.ts';
import { type Logbook, withWriter } from '../logbook/logbook.ts';
import { SWEEP_CHANGED } from '../logbook/sweep-file.ts';
import { isoWithZone } from '../logbook/time.ts';
import { printAnswer } from './answer.ts';
import { failureText, printAndFail } from './failure.ts';
import { type ImportReport, storeVisits } from './import-store.ts';
import { readVisitFiles, type VisitToImport } from './import-visit.ts';
import type { Io } from './io.ts';
import { loadDoubtText } from './load-doubt-text.ts';
import {
  addLoggingOptions,
  happening,
  type LoggingOptions,
  logbookFolder,
  tellEarly,
  writing,
} from './logbook-options.ts';
import { openOwnLogbook } from './own-logbook.ts';
import { progressOn } from './progress-bar.ts';
import { addSweepInputOptions, type SweepFlags } from './sweep-flags.ts';

interface ImportOptions extends SweepFlags, LoggingOptions {
  readonly visitPerFile?: boolean;
  readonly oneVisit?: boolean;
  readonly referenceLoad?: string[];
  readonly fileTime?: boolean;
}

/** So many visits are stored under one lock: others get their turn, and the journal is not read for each. */
const VISITS_PER_LOCK = 25;

/** `turfwire import`: stores sweep files as visits. */
export function register(command: Command, io: Io): void {
  addSweepInputOptions(addLoggingOptions(command.argument('<FILE...>', 'sweep files (Touchstone or CSV)')))
    .option('--visit-per-file', 'every file is a visit of its own, whatever its name')
    .option('--one-visit', 'all files are shots of one visit, whatever their names')
    .option('--reference-load <FILE...>', 'sweeps of the reference load, taken with the same visit')
    .option('--file-time', 'date each visit by the time at which its first file was last written')
    .addHelpText(
      'after',
      '\nFiles whose names differ only in a shot number (a-shot1.csv, a-shot2.csv) are shots of one visit.' +
        '\nWhat cannot be read goes whole to refused/ in the logbook, and the rest is stored.' +
        '\n\nExample:\n  turfwire import visit1-shot1.csv visit1-shot2.csv --at 2026-03-01T10:15Z',
    )
    .action((files: string[], options: ImportOptions) => importFiles(io, files, options));
}

async function importFiles(io: Io, files: readonly string[], options: ImportOptions): Promise<void> {
  const folder = logbookFolder(io, options);
  const logbook = await openOwnLogbook(io, options);
  const { site } = logbook;
  const visits = visitsOf(files, options);
  const common = happening(io, options);
  const report: ImportReport = { visits: [], duplicates: [], amiss: [], refused: [] };
  const bar = await progressOn(io, 'visits');
  try {
    for (let done = 0; done < visits.length; done += VISITS_PER_LOCK) {
      const read: VisitToImport[] = [];
      for (const names of visits.slice(done, done + VISITS_PER_LOCK)) {
        const antenna = await readVisitFiles(io, names, 'antenna', options, site);
        const load = await readVisitFiles(io, options.referenceLoad ?? [], 'reference-load', options, site);
        const doubt = loadDoubtText(load.shots.map(({ sweep }) => sweep));
        if (doubt !== null) io.err(`turfwire: ${doubt}`);
        read.push({
          time: options.fileTime ? await fileTime(io, names) : common.time,
          shots: [...antenna.shots, ...load.shots],
          refused: [...antenna.refused, ...load.refused],
        });
      }
      await withWriter(folder, writing(io), (writer) => storeVisits(writer, read, common.text, report));
      bar.update(Math.min(done + VISITS_PER_LOCK, visits.length), visits.length);
    }
  } finally {
    bar.stop();
  }
  tellTimes(io, logbook, report, options);
  const answer = { json: report, text: textOf(report) };
  const asJson = options.json === true;
  for (const { why, kept } of report.refused) io.err(kept === null ? why : `${why}\n  kept as ${kept}`);
  const failures = [...changedFiles(report), ...refusedFiles(report)];
  const [failure] = failures;
  if (failure === undefined) return printAnswer(io, answer, asJson);
  for (const other of failures.slice(1)) io.err(failureText(other));
  printAndFail(io, answer, asJson, failure);
}

/** A stored sweep that was changed stays as it is, for the user to look at. */
function changedFiles({ amiss }: ImportReport): UserError[] {
  return amiss
    .filter(({ was }) => was === 'changed')
    .map(({ file }) => new UserError('sweep-changed', SWEEP_CHANGED, { kind: 'logbook', place: { file } }));
}

function refusedFiles({ refused, visits }: ImportReport): UserError[] {
  if (refused.length === 0) return [];
  const names = refused.map(({ file }) => file).join(', ');
  return [
    new UserError(
      'files-refused',
      `${names}: not stored${visits.length === 0 ? '' : '; everything else is'}`,
    ),
  ];
}

/** Says which times were taken where nobody gave one, and what looks like a slip. */
function tellTimes(
  io: Io,
  logbook: Logbook,
  { visits }: ImportReport,
  { at, fileTime: byFile }: ImportOptions,
): void {
  const [first] = visits;
  if (first === undefined) return;
  tellEarly(io, logbook, first.time);
  if (at !== undefined || byFile) return;
  io.err(
    `turfwire: no --at was given, so ${plural(visits.length, 'visit')} got the present time; --at sets the time, ` +
      '--file-time takes the one at which a file was last written, and `turfwire note withdraw` takes rows back',
  );
}

/** The files of each visit. */
function visitsOf(files: readonly string[], options: ImportOptions): (readonly string[])[] {
  const { oneVisit, visitPerFile, referenceLoad, fileTime: byFile, at } = options;
  if (oneVisit && visitPerFile) throw wrong('--one-visit', 'and --visit-per-file exclude each other');
  if (byFile && at !== undefined) throw wrong('--file-time', 'and --at exclude each other');
  const visits = oneVisit
    ? [files]
    : visitPerFile
      ? files.map((file) => [file])
      : groupIntoVisits(files).map(({ names }) => names);
  if (referenceLoad !== undefined && visits.length > 1) {
    throw wrong('--reference-load', `belongs to one visit, got ${visits.length}: import them one by one`);
  }
  return visits;
}

async function fileTime(io: Io, [first = '-']: readonly string[]): Promise<string> {
  if (first === '-') throw wrong('--file-time', 'cannot be had for standard input: use --at');
  const written = await stat(resolve(io.cwd, first)).catch(() => null);
  return isoWithZone(written?.mtime ?? io.now());
}

/** What is in the logbook now; empty when nothing came of it. */
function textOf({ visits, duplicates, amiss }: ImportReport): string {
  return [
    ...visits.map(({ visit, time, shots }) => `Visit ${visit} at ${time}: ${plural(shots, 'shot')} stored.`),
    ...duplicates.map(
      ({ file, visit, shot }) =>
        `${file} is in the logbook already (visit ${visit}, shot ${shot}): not stored again.`,
    ),
    ...amiss.filter(({ was }) => was === 'lost').map(({ file }) => `Restored ${file}: it was lost.`),
  ].join('\n');
}

function wrong(field: string, message: string): UserError {
  return new UserError('import-options', message, { kind: 'command-line', place: { field } });
}
