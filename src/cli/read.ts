import { existsSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { type Command, Option } from 'commander';
import type { ItuRegion, Site } from '../core/site.ts';
import { bandsOfRegion, DEFAULT_REGION } from '../core/sweep/bands.ts';
import { UserError } from '../core/user-error.ts';
import type { Problem } from '../formats/problem.ts';
import { plural } from '../formats/words.ts';
import { JOURNAL_FILE, SITE_FILE } from '../logbook/logbook.ts';
import { readSite } from '../logbook/site-file.ts';
import { printAnswer } from './answer.ts';
import { printAndFail } from './failure.ts';
import type { Io } from './io.ts';
import { type LoadedFile, loadFiles } from './load-files.ts';
import { logbookFolder } from './logbook-options.ts';
import { problemText, settlingFlags } from './problem-text.ts';
import { addSweepInputOptions, type SweepFlags } from './sweep-flags.ts';
import { reportSweep } from './sweep-report.ts';
import { describeSweep } from './sweep-text.ts';

interface ReadFlags extends SweepFlags {
  readonly site?: string;
  readonly region?: string;
  readonly logbook?: string;
  readonly json?: boolean;
}

/** `turfwire read`: what each sweep says, with no logbook needed. */
export function register(command: Command, io: Io): void {
  addSweepInputOptions(
    command
      .argument('<FILE...>', 'sweep files (Touchstone or CSV), - for standard input')
      .option(
        '--site <FILE>',
        'site.json: its region, band edges, instrument, and feed line with --plane shack',
      )
      .option(
        '--logbook <DIR>',
        'a logbook whose region and band edges count (default: TURFWIRE_LOGBOOK, else the current folder)',
      )
      .addOption(new Option('--region <NUMBER>', 'ITU region of the bands').choices(['1', '2', '3'])),
  )
    .option('--json', 'print one JSON document')
    .addHelpText('after', '\nExample: turfwire read visit1-shot1.csv visit1-shot2.csv --region 2')
    .action((files: string[], flags: ReadFlags) => read(io, files, flags));
}

async function read(io: Io, files: readonly string[], flags: ReadFlags): Promise<void> {
  const site = flags.site === undefined ? null : await readSite(resolve(io.cwd, flags.site));
  const ofBands = site ?? (await siteOfLogbook(io, flags));
  const told = flags.region === undefined ? (ofBands?.region ?? null) : (Number(flags.region) as ItuRegion);
  const region = told ?? DEFAULT_REGION;
  const bands = bandsOfRegion(region, ofBands?.bandEdges);
  const loaded = await loadFiles(io, files, { ...flags, site });
  const reports = loaded.map(({ file, sweeps }) =>
    sweeps.map((sweep, i) => reportSweep(file, i + 1, sweep, bands)),
  );
  for (const { file, problems } of loaded) {
    for (const problem of problems) io.err(problemText(problem, file));
  }
  if (told === null && reports.flat().some((report) => report.bands.length > 0)) {
    io.err(`bands are those of ITU region ${region}, taken because none is named: --region names another`);
  }
  const refused = loaded.map(refusedOf).filter(({ problems }) => problems.length > 0);
  const answer = {
    json: { region, sweeps: reports.flat(), refused },
    text: reports.flatMap((own) => own.map((report) => describeSweep(report, own.length))).join('\n\n'),
  };
  const asJson = flags.json === true;
  if (refused.length === 0) return printAnswer(io, answer, asJson);
  const names = refused.map(({ file }) => file).join(', ');
  printAndFail(
    io,
    answer,
    asJson,
    new UserError(
      'files-refused',
      `${plural(refused.length, 'file')} of ${loaded.length} could not be read in full: ${names}`,
    ),
  );
}

/**
 * The site of the logbook: it chooses the bands and nothing else, because the files may be anybody's. Null where there
 * is no logbook; one that is named with `--logbook` must be there.
 */
async function siteOfLogbook(io: Io, flags: ReadFlags): Promise<Site | null> {
  const folder = logbookFolder(io, flags);
  const isThere = flags.logbook !== undefined || existsSync(join(folder, JOURNAL_FILE));
  return isThere ? await readSite(join(folder, SITE_FILE)) : null;
}

/** What could not be taken of a file, for programs; `settledBy` has the flags of each reading that is open. */
interface Refused {
  readonly file: string;
  readonly problems: readonly (Omit<Problem, 'severity' | 'settledBy'> & { readonly settledBy: string[] })[];
}

function refusedOf({ file, problems }: LoadedFile): Refused {
  const refusals = problems.filter(({ severity }) => severity === 'refused');
  return {
    file,
    problems: refusals.map((problem) => {
      const { code, message, line, column } = problem;
      return { code, message, line, column, settledBy: settlingFlags(problem) };
    }),
  };
}
