import { resolve } from 'node:path';
import type { Command } from 'commander';
import { describePlace, UserError } from '../core/user-error.ts';
import type { PageData } from '../formats/page-data.ts';
import { plural } from '../formats/words.ts';
import { printAnswer } from './answer.ts';
import type { Run } from './commands.ts';
import { printAndFail } from './failure.ts';
import type { Io } from './io.ts';
import { addLogbookOptions, type LogbookOptions, logbookFolder } from './logbook-options.ts';
import { tellDamage } from './own-logbook.ts';
import { type Gathered, gatherPage } from './page/gather.ts';
import { builtPage, pageWith, writePage } from './page/page-file.ts';
import { servePage } from './page/serve.ts';

interface Options extends LogbookOptions {
  readonly out?: string;
  readonly print?: boolean;
  readonly serve?: boolean;
  readonly lan?: boolean;
  readonly port?: string;
  readonly describe?: string;
}

const DEFAULT_PORT = 8137;

/** `turfwire page`: the six questions as one page that opens by double click, or is served. */
export function register(command: Command, io: Io, run: Run): void {
  addLogbookOptions(command)
    .option('--out <FILE>', 'where to write (default: turfwire-page.html, with --print turfwire-report.html)')
    .option('--print', 'open with the two-page report for a club or a neighbour')
    .option('--serve', 'serve it on this computer instead, and follow the logbook as visits come in')
    .option('--port <NUMBER>', `port to serve on (default: ${DEFAULT_PORT}; 0 for any)`)
    .option('--lan', 'with --serve: let the local network read it too, at an address with a key')
    .option(
      '--describe <FILE>',
      'with --serve: an instrument of your own to measure with from the page (JSON)',
    )
    .addHelpText('after', '\nExample:\n  turfwire page --logbook field --out page.html')
    .action((options: Options) =>
      options.serve === true ? serve(io, run, options) : write(io, run, withoutServing(options)),
    );
}

async function write(io: Io, run: Run, options: Options): Promise<void> {
  const { data, damage } = await gather(io, run, options, 'file');
  const isReport = data.opens === 'report';
  const path = resolve(io.cwd, options.out ?? (isReport ? 'turfwire-report.html' : 'turfwire-page.html'));
  await writePage(path, pageWith(await builtPage(), data));
  const visits = data.sweeps.visits.length;
  const answer = {
    json: { file: path, visits, opens: data.opens },
    text: `Wrote the ${isReport ? 'report' : 'page'} with ${plural(visits, 'visit')}; open it in any browser:\n  ${path}`,
  };
  const asJson = options.json === true;
  const [first] = damage;
  if (first === undefined) return printAnswer(io, answer, asJson);
  // The page is written, but whoever called must know that it does not hold all.
  const message = `the page leaves out ${plural(damage.length, 'visit')}`;
  printAndFail(io, answer, asJson, new UserError('page-incomplete', message, { kind: first.kind }));
}

async function serve(io: Io, run: Run, options: Options): Promise<void> {
  if (options.out !== undefined)
    throw wrong('--out', 'is for a page that is written to a file: leave it out with --serve');
  const reach = options.lan === true ? 'network' : 'loopback';
  await servePage(io, {
    folder: logbookFolder(io, options),
    reach,
    port: portOf(options.port),
    json: options.json === true,
    describe: options.describe === undefined ? null : resolve(io.cwd, options.describe),
    gather: async () => (await gather(io, run, options, reach)).data,
  });
}

async function gather(io: Io, run: Run, options: Options, source: PageData['source']): Promise<Gathered> {
  const opens = options.print === true ? 'report' : 'questions';
  const gathered = await gatherPage(io, run, options, { opens, source });
  tellDamage(io, gathered.problems.length, options);
  for (const { place, message } of gathered.damage) {
    io.err(`turfwire: ${describePlace(place)}${message}`);
  }
  return gathered;
}

function withoutServing(options: Options): Options {
  if (options.lan === true) throw wrong('--lan', 'goes with --serve');
  if (options.port !== undefined) throw wrong('--port', 'goes with --serve');
  if (options.describe !== undefined) throw wrong('--describe', 'goes with --serve');
  return options;
}

function portOf(text: string | undefined): number {
  const port = text === undefined ? DEFAULT_PORT : Number(text);
  if (Number.isInteger(port) && port >= 0 && port <= 65_535 && text?.trim() !== '') return port;
  throw wrong('--port', `needs a number from 0 to 65535, got "${text}"`);
}

function wrong(field: string, message: string): UserError {
  return new UserError('page-question', message, { kind: 'command-line', place: { field } });
}
