import { resolve } from 'node:path';
import type { Command } from 'commander';
import { describePlace, UserError } from '../core/user-error.ts';
import { plural } from '../formats/words.ts';
import { printAnswer } from './answer.ts';
import type { Run } from './commands.ts';
import type { Io } from './io.ts';
import { addLogbookOptions, type LogbookOptions, logbookFolder } from './logbook-options.ts';
import { type Gathered, gatherPage } from './page/gather.ts';
import { builtPage, pageWith, writePage } from './page/page-file.ts';
import { plainText } from './plain-text.ts';

interface Options extends LogbookOptions {
  readonly out?: string;
  readonly print?: boolean;
}

/** `turfwire page`: the six questions as one page that opens by double click. */
export function register(command: Command, io: Io, run: Run): void {
  addLogbookOptions(command)
    .option('--out <FILE>', 'where to write (default: turfwire-page.html, with --print turfwire-report.html)')
    .option('--print', 'open with the two-page report for a club or a neighbour')
    .addHelpText('after', '\nExample:\n  turfwire page --logbook field --out page.html')
    .action((options: Options) => page(io, run, options));
}

async function page(io: Io, run: Run, options: Options): Promise<void> {
  const report = options.print === true;
  const gathered = await gatherPage(io, run, logbookFolder(io, options), {
    opens: report ? 'report' : 'questions',
    source: 'file',
  });
  const path = resolve(io.cwd, options.out ?? (report ? 'turfwire-report.html' : 'turfwire-page.html'));
  await writePage(path, pageWith(await builtPage(), gathered.data));
  const { visits } = gathered.data.sweeps;
  printAnswer(
    io,
    {
      json: { file: path, visits: visits.length, opens: gathered.data.opens },
      text: `Wrote the ${report ? 'report' : 'page'} with ${plural(visits.length, 'visit')}; open it in any browser:\n  ${path}`,
    },
    options.json === true,
  );
  refuseDamage(io, gathered);
}

/** The page is written, but whoever called must know that it does not hold all. */
function refuseDamage(io: Io, { damage }: Gathered): void {
  const first = damage[0];
  if (first === undefined) return;
  for (const { place, message } of damage) io.err(plainText(`turfwire: ${describePlace(place)}${message}`));
  throw new UserError('page-incomplete', `the page does without ${plural(damage.length, 'visit')}`, {
    kind: first.kind,
  });
}
