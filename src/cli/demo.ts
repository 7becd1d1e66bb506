import { existsSync } from 'node:fs';
import { mkdir, readdir, readFile, rm, stat, writeFile } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Command } from 'commander';
import { UserError } from '../core/user-error.ts';
import { makeFolder, REAL_DISK } from '../logbook/disk.ts';
import { printAnswer } from './answer.ts';
import type { Run } from './commands.ts';
import type { Io } from './io.ts';
import { proposal } from './pasteable.ts';
import { progressOn } from './progress-bar.ts';

/** The samples that come with the product, beside `dist` or `src`. */
const SAMPLES = fileURLToPath(new URL('../../samples/', import.meta.url));
const MARK = '.turfwire-demo';

/** The invented seasons, as `samples/season.json` tells them. */
export interface Season {
  readonly radials: { readonly count: number; readonly length: string };
  readonly begun: string;
  readonly visits: readonly SeasonVisit[];
}

interface SeasonVisit {
  readonly at: string;
  readonly laid: readonly number[];
  readonly moisture: number;
  readonly temperatureC: number;
  readonly layout: string;
  readonly strength: readonly { readonly place: string; readonly db: number }[];
}

/** What the demo leaves behind. */
interface Made {
  readonly folder: string;
  readonly logbook: string;
  readonly page: string;
  readonly visits: number;
}

/** Runs one command without showing it. */
type Log = (...args: string[]) => Promise<void>;

/** `turfwire demo`: replays two invented seasons through the real commands. */
export function register(command: Command, io: Io, run: Run): void {
  command
    .option('--out <DIR>', 'folder for the demo; an earlier demo there is replaced', 'demo')
    .option(
      '--json',
      'print one JSON document that says where everything is; the story goes to standard error',
    )
    .addHelpText('after', '\nExample:\n  turfwire demo --out demo')
    .action(async ({ out, json }: { out: string; json?: boolean }) => {
      const folder = resolve(io.cwd, out);
      const made = await replay(json === true ? { ...io, out: io.err } : io, run, folder);
      const text = `\nOpen ${made.page} with a double click. The logbook is in ${made.logbook}.`;
      printAnswer(io, { json: made, text }, json === true);
    });
}

/** Replays two invented seasons through the real commands, then asks the questions. */
async function replay(io: Io, run: Run, folder: string): Promise<Made> {
  await freshFolder(folder);
  const season = JSON.parse(await readFile(join(SAMPLES, 'season.json'), 'utf8')) as Season;
  const files = await readdir(join(SAMPLES, 'sweeps'));
  const logbook = join(folder, 'logbook');
  const quiet: Io = { ...io, out: () => {}, err: () => {}, terminal: false };
  const log: Log = async (...args) => {
    const told: string[] = [];
    const code = await run(args, { ...quiet, err: (text) => void told.push(text) });
    if (code !== 0) throw new Error(`turfwire ${args.join(' ')} ended with ${code}: ${told.join('\n')}`);
  };

  io.out('Two seasons on an invented plot between a lake and a shed, replayed through the real commands.\n');
  await mkdir(logbook);
  await writeFile(join(logbook, 'site.json'), await readFile(join(SAMPLES, 'site.json')));
  await log('begin', logbook, '--name', 'Plot seven by the lake', '--at', season.begun);
  const { count, length } = season.radials;
  const here = ['--logbook', logbook];
  await log('plan', ...here, '--count', `${count}`, '--length', length, '--apply', '--at', season.begun);
  const progress = await progressOn(io, 'visits');
  for (const [i, visit] of season.visits.entries()) {
    await replayVisit(log, visit, here, files);
    progress.update(i + 1, season.visits.length);
  }
  progress.stop();

  const ask = async (...args: string[]): Promise<void> => {
    io.out(`\n$ ${proposal(io, args)}\n`);
    const code = await run(args, io);
    if (code !== 0) throw new Error(`the demo's own question ended with ${code}`);
  };
  await ask('progress', ...here);
  await ask('compare', ...here, '--before', '1', '--after', '8', '--band', '40m');
  await ask('diagnose', ...here);
  const bench = join(folder, 'first-sweep');
  await log(
    'begin',
    bench,
    '--name',
    'First sweep',
    '--height',
    '10.1m',
    '--diameter',
    '25mm',
    '--band',
    '40m',
    '--soil',
    'average',
  );
  await log('lay', '--logbook', bench, '--count', '16', '--length', '7m');
  await ask('measure', '--logbook', bench, '--port', 'simulated', '--band', '40m', '--shots', '2');
  const page = join(folder, 'page.html');
  await ask('page', ...here, '--out', page);
  return { folder, logbook, page, visits: season.visits.length };
}

/** One visit as its owner logged it: wires, readings, and the files of three shots. */
async function replayVisit(log: Log, visit: SeasonVisit, here: readonly string[], files: readonly string[]) {
  const { at, laid, moisture, temperatureC, layout, strength } = visit;
  const when = [...here, '--at', at];
  if (laid.length > 0) await log('lay', ...when, '--planned', laid.join(','));
  await log('note', 'moisture', `${Math.round(100 * moisture)}%`, ...when);
  await log('note', 'temperature', `${temperatureC}C`, ...when);
  for (const { place, db } of strength) {
    await log('note', 'field', `${db}dB`, '--place', place, '--power', '100W', ...when);
  }
  const shots = files.filter((file) => file.startsWith(`${at.slice(0, 10)}-shot`));
  // The files of one winter day came without a header: their owner says what the columns are.
  const columns = layout === 'no-header' ? ['--columns', 'Hz,R,X'] : [];
  await log('import', ...shots.map((file) => join(SAMPLES, 'sweeps', file)), ...columns, ...when);
}

/** Makes the folder anew, and removes an old one only when an earlier demo made it. */
async function freshFolder(folder: string): Promise<void> {
  if (existsSync(folder)) {
    if (!(await stat(folder)).isDirectory()) {
      throw new UserError('demo-folder', 'needs a folder, got a file', { place: { file: folder } });
    }
    const names = await readdir(folder);
    if (names.length > 0 && !names.includes(MARK)) {
      throw new UserError('demo-folder', 'holds something else: name another folder with --out', {
        place: { file: folder },
      });
    }
    await rm(folder, { recursive: true });
  }
  await makeFolder(REAL_DISK, folder);
  await writeFile(
    join(folder, MARK),
    'made by turfwire demo; deleted and made again the next time it runs\n',
  );
}
